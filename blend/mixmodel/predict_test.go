package mixmodel

// Predict predicts the mean of a mixture.
func (m *Model) Predict(point []float64) (Prediction, error) {
	point, err := m.design.checked(point)
	if err != nil {
		return Prediction{}, err
	}
	p := m.predict(point, nil)
	p.Inside = m.design.ends.contains(point)
	return p, nil
}
