// Package mixmodel fits models to numbers measured on fired tiles and says
// which mixture they predict to be best.
//
// It works in this order:
//
//  1. NewDesign takes the cells that were read: shares of 2 to 4 ends, or
//     percentages of 1 to 3 series, one point per reading.
//  2. Design.Choose fits every model of that space and takes the one that
//     predicts best a reading it has not seen; Design.Fit fits one by name.
//     A model that the cells cannot carry is refused with a sentence.
//  3. Model.Predict gives the mean predicted at a point and its standard
//     error; Highest and Lowest give the best mixture within the cells tested;
//     Surface and its contours cover the triangle of 3 ends.
//
// In shares the models are Scheffé's, linear, quadratic and special cubic
// (H. Scheffé, Experiments with mixtures, J. Roy. Statist. Soc. B 20 (1958)
// 344-360); in percent they are full polynomials with a constant and all
// cross products. In both spaces the mean, which says that the mixture makes
// no difference, is the model that the others have to beat.
//
// The package does not extrapolate unasked, weight readings, transform them
// or drop terms one by one, and knows nothing of tiles, files or drawing.
// The arithmetic is in solve.go, the statistics in fit.go.
package mixmodel
