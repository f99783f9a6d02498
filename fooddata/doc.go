// Package fooddata is the food table: what 100 g of each food holds, what its
// household measures weigh, what it is called, and what it may set off.
//
// [Open] gives the table; [Table.Named] finds the food that a name stands for
// and [Table.Search] finds likely foods when no name fits.
//
// # Source
//
// The figures are those of the USDA National Nutrient Database for Standard
// Reference, Release 28 (Agricultural Research Service, Nutrient Data
// Laboratory, 2015, slightly revised May 2016), which is in the public domain.
// The names, the default for a bare name, measures that Release 28 lacks, the
// added-sugar classes, the allergens and the fallback densities are our own;
// they stand in list/*.tsv with a source on every row. [Table.Release] names
// the release. The table is built by go generate from those two inputs and is
// embedded in the program: opening it parses no text.
//
// # Units and missing values
//
// Figures are per 100 g of edible portion, each in the unit that
// [Nutrient.Unit] gives. A figure that the source does not have is an [Amount]
// without a value. It is not zero, and nothing in this package turns it into
// zero.
package fooddata
