package engine

import (
	_ "embed"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"sync"

	"pottle/fooddata"
)

// cutRule is a row of cut_rules.tsv.
type cutRule struct {
	goals                 [numGoals]bool
	lines                 foodSet
	dishes                dishSet
	change                ruleChange
	floor                 ruleFloor
	effect, limit, source string
}

//go:embed cut_rules.tsv
var cutTable string

var cutRules = sync.OnceValue(func() []cutRule {
	var rules []cutRule
	for _, f := range tableRows("cut_rules.tsv", cutTable, 8) {
		r := cutRule{lines: parseFoods(f[1]), dishes: parseDishes(f[2]), change: parseChange(f[3]), floor: parseFloor(f[4]), effect: f[5], limit: f[6], source: f[7]}
		for name := range strings.SplitSeq(f[0], ", ") {
			i := slices.IndexFunc(goalTable[:], func(g goalRow) bool { return g.name == name })
			if i < 0 {
				panic(fmt.Sprintf("engine: cut_rules.tsv: no goal %q", name))
			}
			r.goals[i] = true
		}
		rules = append(rules, r)
	}
	return rules
})

// ruleFloor is a limit that is reckoned. The zero ruleFloor is none.
type ruleFloor struct {
	of    role    // of what is counted for each cup of flour; or empty
	least float64 // grams of it a cup of flour, or of the line
	per   string  // "cup flour", "serving", "recipe"
	most  float64 // the share that what comes in may have of itself and what it stands for
}

// parseFloor reads
//
//	-
//	sweetener 12.5 g per cup flour   at least so much must stay; "fat" too
//	line 14 g per serving            at least so much of the line's food
//	line 0.7 g per recipe
//	new 1/2                          what comes in is at most this share
func parseFloor(column string) ruleFloor {
	if column == "-" {
		return ruleFloor{}
	}
	w := strings.Fields(column)
	if len(w) == 2 && w[0] == "new" {
		if share, ok := new(big.Rat).SetString(w[1]); ok {
			return ruleFloor{most: ratio(share)}
		}
	}
	if len(w) >= 5 && w[2] == "g" && w[3] == "per" {
		grams, ok := new(big.Rat).SetString(w[1])
		f := ruleFloor{per: strings.Join(w[4:], " ")}
		if ok && (w[0] == "line" && (f.per == "serving" || f.per == "recipe") || f.per == "cup flour" && (w[0] == "sweetener" || w[0] == "fat")) {
			f.least = ratio(grams)
			if w[0] != "line" {
				f.of = role(w[0])
			}
			return f
		}
	}
	panic(fmt.Sprintf("engine: cannot read the limit %q", column))
}

// gramsPerCupFlour is SR28's cup of all-purpose flour (20081).
const gramsPerCupFlour = 125

// holds reports whether the changed recipe is within the limit. Sweetener and
// fat count in the part of the dish that the line is in, a frosting's not for
// the cake; flour counts wherever it stands, since what is added goes to the end.
func (f ruleFloor) holds(changed []spot, a *Analysis, section int, from, to fooddata.Food) bool {
	var flour, kept, line, brought float64
	for _, p := range changed {
		if p.got.Status != Counted {
			continue
		}
		grams := p.got.Grams.Low
		if p.got.Food == from {
			line += grams
		}
		if p.got.Food == to {
			brought += grams
		}
		if plays(p.got.Food, roleFlour) {
			flour += grams
		}
		if p.section != section {
			continue
		}
		if f.of != "" && plays(p.got.Food, f.of) {
			kept += partThatCounts(p.got, f.of)
		}
	}
	switch {
	case f.of != "":
		return flour > 0 && kept >= f.least*flour/gramsPerCupFlour*(1-offMeasure)
	case f.per == "serving":
		return line >= f.least*a.Servings*(1-offMeasure)
	case f.per == "recipe":
		return line >= f.least
	case f.most > 0:
		return brought <= f.most*(1+offMeasure)*(line+brought)
	}
	return true
}

// partThatCounts is the grams of sugars or of fat that a line brings in its
// role.
func partThatCounts(l *Line, as role) float64 {
	n := fooddata.Fat
	if as == roleSweetener {
		n = fooddata.Sugars
	}
	r, _ := l.Has(n)
	return r.Low
}
