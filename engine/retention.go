package engine

import (
	_ "embed"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"pottle/fooddata"
)

// shares holds, for each nutrient, the share of a line's amount that is kept:
// 1 is all of it.
type shares [fooddata.NumNutrients]float64

func allKept() *shares {
	var s shares
	for n := range s {
		s[n] = 1
	}
	return &s
}

// keep multiplies the share kept of n on the line.
func (l *Line) keep(n fooddata.Nutrient, share float64) {
	s := allKept()
	if l.kept != nil {
		*s = *l.kept
	}
	s[n] *= share
	l.kept = s
}

//go:embed retention.tsv
var retentionText string

//go:embed retention_food.tsv
var retentionFoodText string

// retentionRow is a row of the USDA Table of Nutrient Retention Factors,
// Release 6 (2007).
type retentionRow struct {
	class       string
	methods     []string // that it is used for; "a + b" is first a, then b
	least, most int      // minutes it is used for
	untold      bool     // also used if the minutes are not told
	usda        string   // the row's own name
	factors     map[string]float64
}

// retentionColumns are the columns of factors, and what each is for. The folate
// factor, for total folate, also serves its two other measures.
var retentionColumns = []struct {
	name string
	of   []fooddata.Nutrient
}{
	{"CA", []fooddata.Nutrient{fooddata.Calcium}}, {"FE", []fooddata.Nutrient{fooddata.Iron}}, {"MG", []fooddata.Nutrient{fooddata.Magnesium}},
	{"P", []fooddata.Nutrient{fooddata.Phosphorus}}, {"K", []fooddata.Nutrient{fooddata.Potassium}}, {"NA", []fooddata.Nutrient{fooddata.Sodium}},
	{"ZN", []fooddata.Nutrient{fooddata.Zinc}}, {"CU", []fooddata.Nutrient{fooddata.Copper}}, {"VITC", []fooddata.Nutrient{fooddata.VitaminC}},
	{"THIA", []fooddata.Nutrient{fooddata.Thiamin}}, {"RIBF", []fooddata.Nutrient{fooddata.Riboflavin}}, {"NIA", []fooddata.Nutrient{fooddata.Niacin}},
	{"VITB6", []fooddata.Nutrient{fooddata.VitaminB6}}, {"FOL", []fooddata.Nutrient{fooddata.Folate, fooddata.FolicAcid, fooddata.FolateDFE}},
	{"VITB12", []fooddata.Nutrient{fooddata.VitaminB12}}, {"VITA", []fooddata.Nutrient{fooddata.VitaminA, fooddata.Retinol, fooddata.BetaCarotene}},
	{"ALC", []fooddata.Nutrient{fooddata.Alcohol}},
}

// noFactorAtAll are the vitamins and minerals for which the table has no column.
const noFactorAtAll = "vitamins D, E and K, choline, pantothenic acid, manganese and selenium have no factor: left as uncooked"

// retentionClass is a line of retention_food.tsv.
type retentionClass struct {
	class, group string
	begins, not  []string
}

var retentionRows = sync.OnceValue(func() []retentionRow {
	var rows []retentionRow
	for _, f := range tableLines(retentionText, 4+len(retentionColumns)) {
		row := retentionRow{class: f[0], methods: splitList(f[1]), usda: f[3], factors: make(map[string]float64)}
		row.minutes(f[2])
		for i, c := range retentionColumns {
			if cell := f[4+i]; cell != "-" {
				percent, err := strconv.Atoi(cell)
				if err != nil || percent < 0 || percent > 100 {
					panic(fmt.Sprintf("engine: retention.tsv: %s: %s is %q", row.usda, c.name, cell))
				}
				row.factors[c.name] = float64(percent) / 100
			}
		}
		rows = append(rows, row)
	}
	return rows
})

var retentionClasses = sync.OnceValue(func() []retentionClass {
	var classes []retentionClass
	for _, f := range tableLines(retentionFoodText, 4) {
		classes = append(classes, retentionClass{class: f[0], group: f[1], begins: splitList(f[2]), not: splitList(f[3])})
	}
	return classes
})

// tableLines cuts a table of tab-separated cells into its lines. Every line
// has the same number of cells; anything else is a fault of ours.
func tableLines(text string, cells int) [][]string {
	var lines [][]string
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		if line == "" || line[0] == '#' {
			continue
		}
		f := strings.Split(line, "\t")
		if len(f) != cells {
			panic(fmt.Sprintf("engine: %d cells instead of %d: %q", len(f), cells, line))
		}
		lines = append(lines, f)
	}
	return lines
}

func splitList(cell string) []string {
	var list []string
	for s := range strings.SplitSeq(cell, ";") {
		if s = strings.TrimSpace(s); s != "" && s != "-" {
			list = append(list, s)
		}
	}
	return list
}

// minutes reads "-", "1 to 20", "45+" and "45+ or untold".
func (r *retentionRow) minutes(cell string) {
	if cell == "-" {
		r.most, r.untold = mostMinutes, true
		return
	}
	cell, r.untold = strings.CutSuffix(cell, " or untold")
	least, most, both := strings.Cut(strings.TrimSuffix(cell, "+"), " to ")
	if !both {
		most = strconv.Itoa(mostMinutes)
	}
	var errs [2]error
	r.least, errs[0] = strconv.Atoi(least)
	r.most, errs[1] = strconv.Atoi(most)
	if errs[0] != nil || errs[1] != nil {
		panic(fmt.Sprintf("engine: retention.tsv: minutes %q", cell))
	}
}

// retention finds the row for a class of food cooked by method for so many
// minutes, 0 if that is not told.
func retention(class, method string, minutes int) (retentionRow, bool) {
	for _, r := range retentionRows() {
		if r.class != class || !slices.Contains(r.methods, method) {
			continue
		}
		if minutes == 0 && r.untold || minutes > 0 && minutes >= r.least && minutes <= r.most {
			return r, true
		}
	}
	return retentionRow{}, false
}

// retentionClassOf returns the class of a food in the retention table, or ""
// if it has none. Fish is divided at 5 % fat.
func retentionClassOf(f fooddata.Food) string {
	for _, c := range retentionClasses() {
		if c.group != f.Group() || !slices.ContainsFunc(c.begins, func(b string) bool { return strings.HasPrefix(f.Description(), b) }) ||
			slices.ContainsFunc(c.not, func(w string) bool { return strings.Contains(f.Description(), w) }) {
			continue
		}
		if c.class != "finfish" {
			return c.class
		}
		fat, ok := f.Per100g(fooddata.Fat).Value()
		switch {
		case !ok:
			return ""
		case fat < 5:
			return "finfish, under 5 % fat"
		}
		return "finfish, over 5 % fat"
	}
	return ""
}

// cookedPattern finds foods whose figures are for the cooked food.
var cookedPattern = regexp.MustCompile(`(?i)\b(cooked|precooked|boiled|baked|roasted|toasted|stir-fried|smoked|home-?prepared|prepared from recipe)\b|frozen, prepared`)

// alreadyCooked reports whether the line's figures are for the food as cooked
// or canned, so that it is not cooked again.
func alreadyCooked(l *Line) bool {
	state := l.Food.State()
	return l.drained != nil || state == fooddata.Cooked || state == fooddata.Canned || cookedPattern.MatchString(l.Food.Description())
}

// notKnown returns the nutrients of the columns that the row leaves unknown and
// that the line has; alcohol is another matter.
func (r retentionRow) notKnown(l *Line) []string {
	var names []string
	for _, c := range retentionColumns {
		if _, ok := r.factors[c.name]; ok || c.name == "ALC" {
			continue
		}
		if v, ok := l.per100(c.of[0]).Value(); ok && v > 0 {
			names = append(names, strings.TrimPrefix(c.of[0].Name(), "total "))
		}
	}
	return names
}

// apply multiplies what the line holds by the row's factors.
func (r retentionRow) apply(l *Line) {
	for _, c := range retentionColumns {
		if factor, ok := r.factors[c.name]; ok {
			for _, n := range c.of {
				l.keep(n, factor)
			}
		}
	}
}

// canLose reports whether the line brings a serving so much of a vitamin that a
// factor is for, at least 1 % of its Daily Value, that it shows whether the
// factor is applied.
func canLose(l *Line, servings float64) bool {
	for _, c := range retentionColumns {
		for _, n := range c.of {
			switch n {
			case fooddata.VitaminC, fooddata.Thiamin, fooddata.Riboflavin, fooddata.Niacin, fooddata.VitaminB6, fooddata.FolateDFE, fooddata.VitaminB12, fooddata.VitaminA:
				dv, _ := fooddata.DailyValue(n)
				if r, ok := l.Has(n); ok && r.High/servings >= dv/100 {
					return true
				}
			}
		}
	}
	return false
}
