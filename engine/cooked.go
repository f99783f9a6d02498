package engine

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// Cooked returns a copy of a, as Analyse or Keep gave it, in which cooking has
// taken its share: vitamins, minerals and alcohol, with the energy of the
// alcohol, are multiplied by the retention factors of each line's food for the
// cooking it goes through. Protein, fat, carbohydrate and all else stay, and so
// do the grams: a cooked weight must be told, see [Analysis.CookedWeight].
//
// Where c was read from directions each line gets the cooking of the steps that
// it is in the dish for: a food put in after the last heat is not heated. A
// food that the directions do not name goes through the cooking of the dish.
// Where c was told every line goes through it. The zero Cooking changes nothing.
//
// A food that the table has cooked or canned is not cooked again. A factor that
// is not known is not applied. Cooking names the methods, the rows and what has no
// factor. In Changes the optional items and the larger amounts are cooked; what
// another choice would change stays as worked out uncooked.
func (e *Engine) Cooked(a *Analysis, c Cooking) *Analysis {
	cooked := *a
	cooked.Lines, cooked.Changes, cooked.Lessened = slices.Clone(a.Lines), slices.Clone(a.Changes), Lessened{}
	if c.Method == "" {
		return &cooked
	}
	k := newPot(cooked.Lines)
	if len(c.steps) > 0 {
		k.follow(c)
	} else {
		k.all(c)
	}
	report := cookingReport{servings: a.Servings}
	for i := range cooked.Lines {
		l := &cooked.Lines[i]
		if !heatable(l) {
			continue
		}
		report.of(l, k.fate[i])
	}
	cooked.Cooking = report.notes(c)
	cooked.Lessened = report.lessened()
	cooked.sum()
	for i, change := range cooked.Changes {
		cooked.Changes[i] = cooked.recooked(a, change)
	}
	return &cooked
}

// heatable reports whether the line has a food whose figures cooking can change.
func heatable(l *Line) bool {
	return l.Kind == grammar.Ingredient && !l.Food.IsZero() && (l.Status == Counted || l.Reason == OptionalItem)
}

// sum works out the totals of the lines anew.
func (a *Analysis) sum() {
	a.Grams = Range{}
	for n := range fooddata.Nutrient(fooddata.NumNutrients) {
		a.Recipe[n] = total(a.Lines, n)
	}
	for i := range a.Lines {
		if a.Lines[i].Status == Counted {
			a.Grams = a.Grams.plus(a.Lines[i].Grams)
		}
	}
}

// recooked returns what a change of before comes to with the lines of a.
func (a *Analysis) recooked(before *Analysis, c Change) Change {
	l, was := &a.Lines[c.Line], &before.Lines[c.Line]
	switch {
	case l.Status == NotCounted && l.Reason == OptionalItem:
		for n := range fooddata.Nutrient(fooddata.NumNutrients) {
			r, _ := l.Has(n)
			c.Delta[n] = r.Low / a.Servings
		}
	case l.Status == Counted && c.What == "with the larger amount of "+l.Food.Name():
		for n := range fooddata.Nutrient(fooddata.NumNutrients) {
			r, _ := l.Has(n)
			if w, _ := was.Has(n); w.Low != w.High {
				c.Delta[n] = (r.High - r.Low) / a.Servings
			}
		}
	}
	return c
}

// fate is what the cooking does to one line.
type fate struct {
	heats     []heat // in order
	off       bool   // put in off the heat, into what was hot
	overnight bool   // stands overnight
	onTop     bool   // put on top, not stirred in
	unnamed   bool   // the directions do not name it
}

// pot follows the lines through the steps.
type pot struct {
	lines []Line
	fate  []fate
	words []map[string]bool // that name each line
	in    []bool            // already in the dish
}

func newPot(lines []Line) *pot {
	k := &pot{lines: lines, fate: make([]fate, len(lines)), in: make([]bool, len(lines)), words: make([]map[string]bool, len(lines))}
	for i := range lines {
		if heatable(&lines[i]) {
			k.words[i] = wordsNaming(&lines[i])
		}
	}
	return k
}

// anew returns a pot of the same lines with nothing in it.
func (k *pot) anew() *pot {
	return &pot{lines: k.lines, fate: make([]fate, len(k.lines)), words: k.words, in: make([]bool, len(k.lines))}
}

// all gives every line what was told.
func (k *pot) all(c Cooking) {
	told := c.told
	if len(told) == 0 {
		told = []heat{{method: c.Method, minutes: c.Minutes}}
	}
	var f fate
	for _, h := range told {
		switch h.method {
		case byNoHeat:
		case byStoredOvernight:
			f.overnight = true
		case byOffTheHeat:
			f.off = true
		case byNotStirredIn:
			f.onTop = true
		default:
			f.heats = append(f.heats, h)
		}
	}
	k.fate = slices.Repeat([]fate{f}, len(k.lines))
}

// follow gives every line the heats of the steps it is in the dish for.
func (k *pot) follow(c Cooking) {
	var recent []int // the lines named last
	hot, off := false, false
	sentence, sincePan := -1, []int(nil)
	for i := range c.steps {
		s := &c.steps[i]
		if s.sentence != sentence {
			sentence, sincePan = s.sentence, nil
		}
		named := k.named(s)
		off = off || hot && s.off
		for _, at := range named {
			f := &k.fate[at]
			f.off = f.off || off && !k.in[at]
			f.onTop = f.onTop || s.onTop
			k.in[at] = true
		}
		sincePan = append(sincePan, named...)
		if s.method != "" {
			hot, off = true, false
			k.heat(s, named, sincePan, recent)
			sincePan = nil
		}
		if s.overnight {
			for at := range k.lines {
				k.fate[at].overnight = k.fate[at].overnight || k.in[at]
			}
		}
		if len(named) > 0 {
			recent = named
		}
	}
	k.rest(c)
}

// heat gives the heat of a step to the lines it heats.
func (k *pot) heat(s *cookStep, named, sentence, recent []int) {
	targets := named
	if s.own && len(targets) == 0 && s.method != byBoiled {
		targets = sentence
		if len(targets) == 0 {
			targets = recent
		}
	}
	if !s.own || len(targets) == 0 {
		targets = nil
		for at, in := range k.in {
			if in {
				targets = append(targets, at)
			}
		}
	}
	for _, at := range targets {
		k.fate[at].heats = append(k.fate[at].heats, s.heat)
	}
}

// rest gives the lines that no step names the heats of the dish as a whole.
func (k *pot) rest(c Cooking) {
	var whole []heat
	for _, s := range c.steps {
		if s.method != "" && !s.own {
			whole = append(whole, s.heat)
		}
	}
	for at := range k.lines {
		if !k.in[at] {
			k.fate[at] = fate{heats: whole, unnamed: true, overnight: c.Method == byStoredOvernight}
		}
	}
}

// named returns the lines that a step names. Where a word belongs to several
// lines the one that more of the words around it belong to is meant: "chicken
// broth" is not the chicken.
func (k *pot) named(s *cookStep) []int {
	var named []int
	for _, w := range s.words {
		if w == "ingredient" || w == "everything" || w == "remaining" || w == "rest" {
			for at := range k.lines {
				if k.words[at] != nil && !k.in[at] {
					named = append(named, at)
				}
			}
			break
		}
	}
	best := make([]int, len(s.words)) // the longest run of words of one line over each word
	runs := make([][]int, len(k.lines))
	for at, words := range k.words {
		if words == nil {
			continue
		}
		runs[at] = make([]int, len(s.words))
		for i := 0; i < len(s.words); {
			j, tells := i, false
			for j < len(s.words) && words[s.words[j]] {
				tells = tells || !vagueName[s.words[j]]
				j++
			}
			for p := i; p < j && tells; p++ {
				runs[at][p] = j - i
				best[p] = max(best[p], j-i)
			}
			i = max(j, i+1)
		}
	}
	for at, run := range runs {
		for p := range run {
			if run[p] > 0 && run[p] == best[p] {
				named = append(named, at)
				break
			}
		}
	}
	slices.Sort(named)
	return slices.Compact(named)
}

// vagueName are words that alone name no food.
var vagueName = wordSet("red green white black yellow brown dry dried hot sweet whole low fat free light dark ground fresh large small medium lean extra virgin all purpose boneless skinless raw cooked canned frozen plain reduced sodium unsalted salted for in with or a no skin bone clove head can cup piece large long grain part style")

// kindNames are what directions call the foods of a group, beside their names.
var kindNames = map[string][]string{
	"Beef Products": {"meat"}, "Pork Products": {"meat"}, "Lamb, Veal, and Game Products": {"meat"}, "Poultry Products": {"meat"},
	"Finfish and Shellfish Products": {"fish"}, "Vegetables and Vegetable Products": {"vegetable"},
	"Fruits and Fruit Juices": {"fruit"}, "Nut and Seed Products": {"nut"}, "Spices and Herbs": {"spice", "seasoning"},
}

// wordsNaming returns the words that name the food of a line.
func wordsNaming(l *Line) map[string]bool {
	words := make(map[string]bool)
	for _, w := range append(fooddata.Normalise(strings.Join(l.Item.Words, " ")), fooddata.Normalise(l.Food.Name())...) {
		if !grammar.IsPreparation(w) {
			words[w] = true
		}
	}
	for _, w := range kindNames[l.Food.Group()] {
		words[w] = true
	}
	if retentionClassOf(l.Food) == "pasta" {
		words["pasta"], words["noodle"] = true, true
	}
	return words
}

// CookedWeight tells what a cooked weight in grams gives: the figures of 100 g
// of the cooked dish, and the yield in per cent of the ingredients' weight as
// assembled. It fails if grams is not a weight, nothing is counted, or the
// weight cannot be that of these ingredients: less than a tenth of them or more
// than five times as much (dry beans and pasta take up less than twice their
// weight in water). Where a line with a weight is not counted the yield is too
// high; the caller knows from [Analysis.Counted].
func (a *Analysis) CookedWeight(grams float64) (per100 func(n fooddata.Nutrient) Total, yield float64, err error) {
	switch {
	case math.IsNaN(grams) || math.IsInf(grams, 0) || grams <= 0:
		return nil, 0, fmt.Errorf("a cooked weight must be above zero")
	case a.Grams.Low <= 0:
		return nil, 0, fmt.Errorf("no ingredient is counted, so there is nothing to weigh")
	case grams < a.Grams.Low/10 || grams > a.Grams.Low*5:
		return nil, 0, fmt.Errorf("%.0f g cannot be what %.0f g of ingredients weigh cooked", grams, a.Grams.Low)
	}
	return func(n fooddata.Nutrient) Total { return a.Recipe[n].times(100 / grams) }, grams / a.Grams.Low * 100, nil
}
