package mixmodel

// Predict predicts the mean of a mixture.
func (m *Model) Predict(point []float64) Prediction { return m.predict(point, nil) }
