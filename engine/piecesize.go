package engine

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// A length before a food ("8-inch flour tortilla", "9 inch banana") is how large
// one piece of it is, not how many there are.

// sizePattern finds the size that a portion's detail tells: `8" to 8-7/8" long`,
// "tortilla; 6-inch", `approx 7-8" dia`, "9\" or longer".
var sizePattern = regexp.MustCompile(`(less than )?(\d+(?:-\d+/\d+)?)(?:"? ?(?:to|or|-) ?(\d+(?:-\d+/\d+)?))?(?:"|-inch\b| inch\b)( or longer| or less| thick)?`)

// portionSize is the size in inches that a portion is for, from the least to the
// greatest; ok is false if it tells none.
func portionSize(portion fooddata.Portion) (size Range, ok bool) {
	at := sizePattern.FindStringSubmatch(portion.Detail)
	if at == nil || at[4] == " thick" {
		return Range{}, false
	}
	size.Low = inchNumber(at[2])
	size.High = size.Low
	switch {
	case at[3] != "":
		size.High = inchNumber(at[3])
	case at[1] != "" || at[4] == " or less":
		size.Low = 0
	case at[4] == " or longer":
		size.High = math.Inf(1)
	}
	return size, true
}

// inchNumber reads "8-7/8".
func inchNumber(s string) float64 {
	whole, part, _ := strings.Cut(s, "-")
	v, _ := strconv.ParseFloat(whole, 64)
	if above, below, ok := strings.Cut(part, "/"); ok {
		n, _ := strconv.ParseFloat(above, 64)
		d, _ := strconv.ParseFloat(below, 64)
		if d > 0 {
			v += n / d
		}
	}
	return v
}

// offSize is how far a size is from that of a portion, in inches.
func offSize(want float64, portion Range) float64 {
	return max(0, portion.Low-want, want-portion.High)
}

// nearSize is the most that a size may be off to be that of a portion.
func nearSize(want float64) float64 { return max(0.51, 0.08*want) }

// notOfOne are words after or before a length that is not that of one piece of
// the food as it was counted.
var notOfOne = wordSet("cut into in to slice sliced slices piece pieces chunk chunks cube cubes dice diced strip strips thick round rounds wide length lengths stick sticks " +
	"matchstick matchsticks wedge wedges baton batons segment segments section sections pan dish coin coins apart long-pieces from off of layer layers")

// pieceSize is how large one piece is said to be, in inches, or 0: "6 (8-inch)
// flour tortillas", "2 9-inch bananas".
func pieceSize(item grammar.Item) float64 {
	for i, said := range item.Prep {
		if i > 0 && notOfOne[item.Prep[i-1]] || i+1 < len(item.Prep) && notOfOne[item.Prep[i+1]] {
			continue
		}
		if size := lengthOf(said); size > 0 {
			return size
		}
	}
	for _, aside := range item.Aside {
		words := strings.Fields(aside)
		if len(words) > 4 || slices.ContainsFunc(words, func(w string) bool { return notOfOne[w] }) {
			continue
		}
		for _, w := range append([]string{aside}, words...) {
			if size := lengthOf(w); size > 0 {
				return size
			}
		}
	}
	return 0
}

var lengthWords = regexp.MustCompile(`^\d.*(?:inch|cm|mm|"|\bin\b)`)

// lengthOf reads a length in inches: "8-inch"; 0 if said is none.
func lengthOf(said string) float64 {
	if !lengthWords.MatchString(said) {
		return 0
	}
	a := grammar.ParseLine(said + " piece").Items[0].Amount
	if a == nil || len(a.Terms) != 1 || a.Terms[0].Measure == nil || a.Terms[0].Measure.Kind != grammar.Length {
		return 0
	}
	return ratio(a.Terms[0].Quantity.Low) * ratio(a.Terms[0].Measure.Amount) / mmPerInch
}

// perInch gives the grams of a piece of the food of a length, where it is sold
// by that: ginger.
func (p portioner) perInch(inches float64) (float64, bool) {
	for portion := range p.food.Portions() {
		each := float64(portion.Grams) / portion.Amount
		switch {
		case portion.Measure == "cubic inch":
			if slices.Contains(p.words, "cube") {
				return each * inches * inches * inches, true
			}
		case strings.Contains(portion.Measure, "inch") || strings.Contains(portion.Measure, "piece") && strings.Contains(portion.Detail, "inch"):
			return each * inches, true
		}
	}
	return 0, false
}

// sized gives the grams of one piece of a size in inches, where the table knows
// one of that size.
func (p portioner) sized(inches Range, written string) weight {
	if p.plural {
		return weight{why: fmt.Sprintf("%s is a size: how many is not said", written), reason: AskAmount}
	}
	low, okLow := p.ofSize(inches.Low)
	high, okHigh := p.ofSize(inches.High)
	if !okLow || !okHigh {
		return weight{why: fmt.Sprintf("%s is a size: what %s of it weighs is not known", written, p.food.Name()), reason: AskAmount}
	}
	return weight{grams: Range{min(low, high), max(low, high)}, sure: sureMeasure, assumed: []string{fmt.Sprintf("%s read as the size of one, %s g", written, show(low))}}
}

// ofSize is the weight in grams of one piece of a size.
func (p portioner) ofSize(inches float64) (float64, bool) {
	grams, best := 0.0, math.Inf(1)
	for portion := range p.food.Portions() {
		size, ok := portionSize(portion)
		if !ok || portion.Measure != "each" && !pieces[portion.Measure] || portion.Measure == "slice" || portion.Measure == "piece" {
			continue
		}
		if off := offSize(inches, size); off < best {
			grams, best = float64(portion.Grams)/portion.Amount, off
		}
	}
	return grams, best <= nearSize(inches)
}

// pluralName reports whether the name of whole things is in the plural.
func pluralName(name []string) bool {
	last := len(name) - 1
	for last > 0 && grammar.IsPreparation(name[last]) {
		last--
	}
	return last >= 0 && fooddata.Singular(name[last]) != name[last]
}

// rightSize keeps the portions that tell a size, if the line tells one and any
// does.
func (p portioner) rightSize(each []fooddata.Portion) []fooddata.Portion {
	if p.across == 0 {
		return each
	}
	var sized []fooddata.Portion
	for _, portion := range each {
		if _, ok := portionSize(portion); ok {
			sized = append(sized, portion)
		}
	}
	if len(sized) == 0 {
		return each
	}
	return sized
}
