// Package pourbook writes the workbook of a test's amounts, with formulas that
// follow what is typed on the day. Beside each formula stands its value: that of
// package blend where it has one, else it is worked out here by the same rule.
//
// From an input to an amount, in a series on one base: NAMES are cells, {keys} are
// columns, with a cell for each cup.
//
//	SG_1_typed -> SG_1          Inputs: the box, and beside it as it is used
//	                            (writeInput)
//	SG_1 -> Holds_1             Working: g of recipe in a mL (writeGlazes)
//	Holds_1 -> Unit_1, Size_1   Working: mL and cup size for a unit of share (unit, size)
//	Cup_size -> Cup_used        Inputs: less where Mixed_1 is too little; of a batch
//	                            to share from Batch_size/Holds_1 (cupUsed)
//	Cup_used*Unit_1/Size_1      {ml1} of Working, the exact pour (addUnits)
//	{ml1} by Pour_step          {steps1} of Working, whole steps (addSteps)
//	{steps1}                    {pour1} of the pour card, what to pour (addPour)
//	{pour1} or {otherpour1}     {used1} of Working, what was really poured (addUsed)
//	{used1}*Holds_1             {rec1} of Working, g of recipe in the cup (addContents)
//	{percent1}/100*{rec1}       {exact1} of Working, g of colourant (addDosed)
//	{exact1} by Dose_step       {dose1} of the pour card, what to weigh (addDose)
//
// A formula can name a column of any sheet, so newBook lays out all columns first;
// only then Write writes the sheets, one after the other.
package pourbook
