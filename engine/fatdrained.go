package engine

import (
	"fmt"
	"slices"
	"strings"

	"pottle/fooddata"
)

// browned pairs raw ground meat with the same meat as drained crumbles, pan-
// broiled or else broiled, by SR28 number.
var browned = map[string]string{
	"13498": "13494", "23577": "23580", "23572": "23575", "23567": "23570", "23562": "23565", "23472": "23476", "23557": "23560", "23477": "23481", // beef, 70 % to 97 % lean
	"10219": "10220", "10972": "10975", "10973": "10976", // pork
	"05332": "05333", "05305": "05306", "05665": "05666", "05668": "05669", // chicken, turkey
	"10123": "10862", "10994": "43378", "07254": "07973", // bacon, also reduced in sodium and of turkey, fried or microwaved
	"17224": "17225", "17142": "17143", "17330": "17331", "17343": "17344", // lamb, veal, bison, venison
}

// fatKept works out which share of its fat ground meat keeps when it is browned
// and drained: the fat for each gram of protein, cooked against raw, as no
// protein drains. It is at most 1.
func (e *Engine) fatKept(raw fooddata.Food) (float64, string) {
	cooked, ok := e.table.Food(browned[raw.Number()])
	if !ok {
		return 1, "how much drains is not known: all of the fat is counted"
	}
	perProtein := func(f fooddata.Food) float64 {
		fat, _ := f.Per100g(fooddata.Fat).Value()
		protein, _ := f.Per100g(fooddata.Protein).Value()
		return fat / protein
	}
	return min(1, perProtein(cooked)/perProtein(raw)), fmt.Sprintf("fat for each gram of protein in SR28 %s, cooked, against %s, raw", cooked.Number(), raw.Number())
}

func groundMeat(l *Line) bool {
	switch l.Food.Group() {
	case "Beef Products", "Pork Products", "Poultry Products", "Lamb, Veal, and Game Products":
		return strings.Contains(strings.ToLower(l.Food.Description()), "ground") && l.Food.State() == fooddata.Raw
	}
	return false
}

// fats are the figures that fall with the fat of a line.
var fats = []fooddata.Nutrient{fooddata.Fat, fooddata.SaturatedFat, fooddata.TransFat, fooddata.MonounsaturatedFat, fooddata.PolyunsaturatedFat,
	fooddata.LinoleicAcid, fooddata.LinolenicAcid, fooddata.ALA, fooddata.EPA, fooddata.DHA}

// kcalPerGramMeatFat is the energy of meat fat in the table (USDA Agriculture
// Handbook 74: 9.02 kcal/g).
const kcalPerGramMeatFat = 9.02

// loseFat leaves a share of the line's fat.
func (l *Line) loseFat(left float64) {
	fat, _ := l.per100(fooddata.Fat).Value()
	if energy, ok := l.per100(fooddata.Energy).Value(); ok && energy > 0 {
		l.keep(fooddata.Energy, max(0, 1-kcalPerGramMeatFat*fat*(1-left)/energy))
	}
	for _, n := range fats {
		l.keep(n, left)
	}
}

// fatDrained reports whether the directions drain fat: "drain fat", or "drain"
// after browning, where it is the meat that is drained.
func (d *thrown) fatDrained() bool {
	a, steps, k := d.a, d.steps, d.pot
	if !slices.ContainsFunc(steps, func(s cookStep) bool { return saidAny(saidIn(&s), pouredOff) }) {
		return false
	}
	pan, meat := false, false
	for i := range steps {
		s := &steps[i]
		named := slices.ContainsFunc(k.named(s), func(at int) bool { return groundMeat(&a.Lines[at]) }) || slices.ContainsFunc(s.words, func(w string) bool { return meatWords[w] })
		if s.method != "" {
			was := pan
			pan = s.method == byFried || s.method == bySauteed || s.method == byHeated && named
			meat = named || meat && was && pan
		}
		meat = meat || pan && named
		said := saidIn(s)
		if !saidAny(said, pouredOff) {
			continue
		}
		if slices.Contains(d.bacon.steps, i) && !meat { // that of the bacon
			continue
		}
		if fatPattern.MatchString(said) {
			return true
		}
		if object := drainedBy(steps, i); pan && meat && saidAny(said, "drain") && (len(object) == 0 || meatWords[object[0]] || a.isGround(object[0])) {
			return true
		}
	}
	return false
}

// meatWords are what directions call browned ground meat.
var meatWords = wordSet("meat beef turkey pork lamb veal chicken sausage mince hamburger mixture skillet pan")

// isGround reports whether a word names a line of ground meat.
func (a *Analysis) isGround(word string) bool {
	return slices.ContainsFunc(a.Lines, func(l Line) bool { return l.Status == Counted && groundMeat(&l) && wordsNaming(&l)[word] })
}

// pouredOff are the words by which directions take fat away.
const pouredOff = "drain|discard|spoon off|skim off|skim"
