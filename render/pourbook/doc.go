// Package pourbook writes the workbook of a test's amounts, with formulas that
// follow what is typed on the day. Beside each formula stands its value: that of
// package blend where it has one, else it is worked out here by the same rule.
//
// From an input to an amount, in a series on one base: NAMES are cells, {keys} are
// columns, with a cell for each cup.
//
//	SG_1_typed (Inputs, the box)  -> SG_1 (Inputs, as it is used)
//	SG_1                          -> Holds_1, g of recipe in a mL (Working)
//	Holds_1                       -> Unit_1 and Size_1, mL and cup size for a unit of share
//	Cup_size_typed -> Cup_size    -> Cup_used (Inputs), less where Mixed_1 is too little;
//	                                 of a batch to share from Batch_size/Holds_1
//	Cup_used*Unit_1/Size_1        -> {ml1}, the exact pour (Working)
//	{ml1} in steps of Pour_step   -> {steps1} (Working) -> {pour1} (Pour card)
//	{pour1}, or {otherpour1}      -> {used1}, what was really poured (Working)
//	{used1}*Holds_1               -> {rec1}, g of recipe in the cup
//	{percent1}/100*{rec1}         -> {exact1}, g of colourant
//	{exact1} in steps of Dose_step -> {dose1} (Pour card)
//
// A formula can name a column of any sheet, so newBook lays out all columns first;
// only then Write writes the sheets, one after the other.
package pourbook
