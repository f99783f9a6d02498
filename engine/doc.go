// Package engine works out what a recipe holds: it finds the food and the
// grams behind each line, sums the figures for the recipe and for a serving,
// and says what it assumed on the way. Engine.Analyse does a whole recipe,
// Engine.Amount one amount ("1 tsp soy sauce").
//
// The package does no input or output, reads no clock and changes nothing
// that others see; an Engine may be used by several goroutines at once.
//
// # Conventions, in order of application
//
//   - A range ("2 to 3 carrots") counts at its smaller end; the larger end is
//     carried as the high figure. Of several choices ("butter or margarine")
//     the first counts. An optional item is left out. What the other end,
//     the other choice or the optional item would change is reported.
//   - "to taste", "for frying", "a few", no amount: not counted, and said.
//   - Where a line gives the same amount twice, the weight counts; a
//     disagreement beyond 10 % is said.
//   - A volume becomes grams by the food's own household measures, the one
//     whose preparation fits best; else by the density of a like food, which
//     is an assumption; else the line is asked about.
//   - Ounces of a drink are fluid ounces, of all else weight.
//   - "bone-in", "with shell", "unpeeled" weights lose the refuse share, and so do
//     those of foods that are sold so unless the line says otherwise: mussels,
//     whole fish and birds, their legs, thighs and wings, ribs, shanks, a leg of
//     lamb. Where it may be either the weight is taken as eaten, and said so.
//   - Much oil for frying, by the line or by the directions, is not counted: how
//     much is taken up is asked.
//   - Water that food is boiled in and that is poured off is in no weight; of its
//     salt what the food takes up is counted.
//   - Canned food that is drained weighs less than the can says and, where
//     the table has no drained figures, holds less sodium. What nobody eats
//     with its liquid (tuna, water chestnuts) counts drained unless the line
//     says undrained.
//   - Totals add the table's figures, unrounded, for the grams of each line.
//     A figure that the table does not have is a gap: the total is then "at
//     least" so much, unless what is missing is too little to show.
//   - Analyse takes nothing off for cooking; Served and Cooked apply the USDA
//     retention factors, which change vitamins, minerals and alcohol only, and
//     leave out what the directions throw away, with the share as an
//     assumption. What is thrown away and counted all the same is said.
//
// These follow the usual practice of published recipe analysis (common
// practice, no source). Quantities are exact until grams; grams and sums are
// float64, whose error is far below the last digit of any figure.
package engine
