// Package mixmodel fits models to numbers measured on fired tiles and says
// which mixture they predict to be best.
//
// A cup is mixed once and dipped onto several tiles, so the cup is the
// experimental unit: tiles of one cup say nothing of how well the next cup
// would repeat.
//
//  1. NewDesign takes the tiles that were read, each with its cup, the cup's
//     mixture as made, and the levels of the factors (body, firing, block). What
//     varies within cups is estimated there and taken out; each cup then counts
//     once, by the mean of its tiles.
//  2. Design.Choose fits every model of that space and takes the one that
//     predicts best a cup it has not seen; Design.Fit fits one by name. A model
//     that the cups cannot carry is refused with a sentence.
//  3. Highest and Lowest give the best mixture within the cups read, with the
//     limits of its mean and those of a new cup; Surface and its contours cover
//     the triangle of 3 ends.
//
// In shares the models are Scheffé's, linear, quadratic and special cubic
// (H. Scheffé, Experiments with mixtures, J. Roy. Statist. Soc. B 20 (1958)
// 344-360); in percent they are full polynomials with a constant and all
// cross products. In both spaces the mean, which says that the mixture makes
// no difference, is the model that the others have to beat.
//
// The package does not extrapolate unasked, transform readings or drop terms
// one by one, and knows nothing of files or drawing. The arithmetic is in
// solve.go, the statistics in cups.go, scatter.go and fit.go.
package mixmodel
