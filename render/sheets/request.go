package sheets

func (d *drawer) lacksLabels() string { return "todo" }
func (d *drawer) labels()             {}
func (d *drawer) lacksMat() string    { return "todo" }
func (d *drawer) mat()                {}
func (d *drawer) trays()              {}
func (d *drawer) boards()             {}
func (d *drawer) chemistry()          {}
