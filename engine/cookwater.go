package engine

import (
	"fmt"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// Cooking water that is poured off takes its salt with it, but for what the food
// takes up.
//
// Dry pasta takes up 1.42 times its weight in water (SR28: 74.7 g carbohydrate in
// 100 g dry, 20120, 30.9 g cooked, 20121), and the salt of so much of the water.
// Where the water is not told it is taken to be 4 quarts to the pound, which gives
// [waterKept]; that share is an estimate for other foods (common practice, no
// source).
const (
	waterOfPasta = 1.42
	usualWater   = 3785.0 / 453.6 // grams to a gram of dry pasta
)

// leastSaltOfWater is the salt in grams from which a line that the directions
// do not name may be that of the water: half a tablespoon.
const leastSaltOfWater = 9

// leastWater is the weight in grams from which a line of water may be what one
// boils in, and leastBoilingWater from which it is where no step names it: two
// quarts (common practice, no source).
const (
	leastWater        = 400
	leastBoilingWater = 1890
)

// cookingWater is what directions tell of water that food is boiled in and that
// is poured off.
type cookingWater struct {
	salt   []int  // lines of the salt that goes into it
	water  []int  // lines of the water itself
	maybe  []int  // lines of salt that may go into it, wholly or in part
	said   string // the words by which it is poured off
	share  float64
	source string
	untold bool // the directions do not say that it is poured off
	drawn  bool // the salt draws water from a vegetable, and is rinsed or squeezed out
}

// cookingWater reads what becomes of cooking water. All of it is empty where
// nothing is boiled and drained.
func (a *Analysis) cookingWater(steps []cookStep, k *pot) cookingWater {
	var w cookingWater
	at := slices.IndexFunc(steps, func(s cookStep) bool { return s.method == byBoiledAndDrained })
	if at < 0 { // pasta in salted water is drained, told or not
		at = slices.IndexFunc(steps, func(s cookStep) bool {
			return saltedWater(saidIn(&s)) && slices.ContainsFunc(s.words, func(w string) bool { return pastaWords[w] })
		})
	}
	if at < 0 {
		w = a.waterUntold(steps)
		if told := a.saltToldForWater(false); len(told) > 0 && !absorbed(steps) {
			w.salt, w.maybe, w.untold = told, nil, false
			w.share, w.source = a.saltTakenUp(steps, k, 0, nil)
			return w
		}
		if len(w.maybe) == 0 {
			w = a.saltDrawn(steps, k)
		}
		return w
	}
	w.said = steps[at].said
	w.water = a.waterPouredOff(steps)
	w.share, w.source = a.saltTakenUp(steps, k, at, w.water)

	var salt []int
	told := a.saltToldForWater(true)
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == Counted && plainSalt(l) {
			salt = append(salt, i)
		}
	}
	here, elsewhere := false, false
	for j := range steps {
		said := saidIn(&steps[j])
		switch {
		case saltedWater(said):
			here = true
		case slices.Contains(steps[j].words, "salt"):
			water := steps[j].method == byBoiledAndDrained || saltsWater(steps, j) || k.saltsBoiled(steps, j)
			here = here || water
			elsewhere = elsewhere || !water
		}
	}
	largest := func() int {
		return slices.MaxFunc(salt, func(x, y int) int { return int(100 * (a.Lines[x].Grams.Low - a.Lines[y].Grams.Low)) })
	}
	switch {
	case len(told) > 0:
		w.salt = told
	case len(salt) == 0:
	case here && len(salt) > 1:
		w.salt = []int{largest()}
	case here && !elsewhere:
		w.salt = salt
	case here:
		w.maybe = salt
	case !elsewhere && a.Lines[largest()].Grams.Low >= leastSaltOfWater, a.Lines[largest()].Grams.Low > mostUsedUp:
		w.maybe = []int{largest()}
	}
	if len(w.salt) == 0 && len(w.maybe) == 0 && len(w.water) == 0 {
		return a.saltDrawn(steps, k)
	}
	return w
}

// waterUntold reads directions that boil in salted water and do not say what becomes
// of it.
func (a *Analysis) waterUntold(steps []cookStep) cookingWater {
	var w cookingWater
	at := slices.IndexFunc(steps, func(s cookStep) bool { return saltedWater(saidIn(&s)) })
	if at < 0 || absorbed(steps) {
		return w
	}
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == Counted && plainSalt(l) && (len(w.maybe) == 0 || l.Grams.Low > a.Lines[w.maybe[0]].Grams.Low) {
			w.maybe = []int{i}
		}
	}
	w.said, w.untold = steps[at].said, true
	w.share, w.source = waterKept, "an estimate, common practice, no source"
	return w
}

// absorbed reports that the water is taken up by the food or boils away.
func absorbed(steps []cookStep) bool {
	return slices.ContainsFunc(steps, func(s cookStep) bool { return saidAny(saidIn(&s), "absorbed|absorbs|evaporated|evaporates|soaked up") })
}

// saltedWater reports words that tell of salt in water, without more of it.
func saltedWater(said string) bool {
	return saidAny(said, "salted water|salted boiling water|boiling salted water|salty water|salt the water|season the water|salt the cooking water|salt the pasta water|salting the water|salt water|salt your water")
}

// saltsBoiled reports that the step at puts salt to what is then boiled and
// drained, and to nothing else: "put the potatoes and the salt in a pot, cover with
// water. Boil; drain."
func (k *pot) saltsBoiled(steps []cookStep, at int) bool {
	boiled := -1
	for j := at; j < len(steps) && j < at+6 && boiled < 0; j++ {
		switch steps[j].method {
		case "", byBoiled, bySimmered, byHeated:
		case byBoiledAndDrained:
			boiled = j
		default:
			return false
		}
	}
	if boiled < 0 {
		return false
	}
	water := false
	in := make(map[int]bool)
	for j := max(0, at-2); j <= boiled; j++ {
		said := saidIn(&steps[j])
		if j < at && steps[j].method != "" && steps[j].method != byBoiled {
			in, water = make(map[int]bool), false
			continue
		}
		has := saidAny(said, "water")
		water = water || has
		if has || j == boiled {
			for _, line := range k.named(&steps[j]) {
				if l := &k.lines[line]; !plainSalt(l) && !isWater(l) {
					in[line] = true
				}
			}
		}
	}
	if len(in) == 0 { // what is boiled is what the salt was put to
		return water
	}
	others := 0
	for _, line := range k.named(&steps[at]) {
		if l := &k.lines[line]; !in[line] && !plainSalt(l) && !isWater(l) {
			others++
		}
	}
	return others == 0 && water
}

func isWater(l *Line) bool { return strings.HasPrefix(l.Food.Description(), "Beverages, water") }

// waterPouredOff returns the lines of the water that is poured off: the largest,
// unless it may be another.
func (a *Analysis) waterPouredOff(steps []cookStep) []int {
	at := -1
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == Counted && isWater(l) && (at < 0 || l.Grams.Low > a.Lines[at].Grams.Low) {
			at = i
		}
	}
	if at < 0 || a.Lines[at].Grams.Low < leastWater {
		return nil
	}
	told := a.Lines[at].Grams.Low >= leastBoilingWater
	for i := range steps {
		said := saidIn(&steps[i])
		switch {
		case !saidAny(said, "water"):
		case saidAny(said, "salted water|pasta water|cooking water|reserved water") || steps[i].method == byBoiledAndDrained,
			saidAny(said, "boil|boiling|drain|discard|cover|salt") && thenDrained(steps[i:]):
			told = true
		default:
			return nil
		}
	}
	if !told {
		return nil
	}
	return []int{at}
}

// thenDrained reports that the next heat of steps, if any, is a boiling that is
// drained.
func thenDrained(steps []cookStep) bool {
	for _, s := range steps[:min(len(steps), 6)] {
		if s.method != "" && s.method != byBoiled {
			return s.method == byBoiledAndDrained
		}
	}
	return true
}

// saltTakenUp gives the share of the salt of the cooking water that the food takes
// up, with what it rests on. Water that is kept aside and used is counted.
func (a *Analysis) saltTakenUp(steps []cookStep, k *pot, at int, lines []int) (float64, string) {
	pasta := 0.0
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Kind == grammar.Ingredient && l.Status == Counted && retentionClassOf(l.Food) == "pasta" && l.Food.State() != fooddata.Cooked {
			pasta += l.Grams.Low
		}
	}
	water := max(a.gramsOf(lines), waterTold(steps))
	share, source := waterKept, "an estimate, common practice, no source"
	switch {
	case pasta > 0 && water > pasta:
		share = min(1, waterOfPasta*pasta/water)
		source = "an estimate: what the pasta takes up of the water, by SR28"
	case pasta > 0:
		water = usualWater * pasta
		source = "the share of 4 quarts of water that a pound of pasta takes up, by SR28"
	}
	if kept, said := reservedWater(steps[at:]); kept > 0 && water > 0 {
		share = min(1, share+kept/water)
		source += ", and the " + said + " that is kept and used"
	}
	return share, source
}

// reservedWater is the cooking water, in grams, that steps keep aside and then use,
// and how it is told.
func reservedWater(steps []cookStep) (grams float64, amount string) {
	from := -1
	for i := range steps {
		said := saidIn(&steps[i])
		if m := reservedAmount.FindStringSubmatch(said); m != nil && saidAny(said, "reserve|reserving|save|saving|keep|keeping|set aside") && saidAny(said, "water|liquid") {
			if ml := mlTold(m[1] + " " + m[2]); ml > 0 {
				grams, amount, from = ml, m[1]+" "+m[2], i
			}
		}
	}
	if from < 0 || !slices.ContainsFunc(steps[from+1:], func(s cookStep) bool {
		return saidAny(saidIn(&s), "reserved|pasta water|cooking water|pasta liquid|cooking liquid")
	}) {
		return 0, ""
	}
	return grams, amount
}

// pourOff gives what is kept of the lines of the cooking water.
func (w cookingWater) pourOff() []Kept {
	var kept []Kept
	for _, at := range w.salt {
		kept = append(kept, Kept{Line: at, Kind: KeptWater, Share: w.share, Source: w.source + "; for another share say \"keep 10% of the water\""})
	}
	for _, at := range w.water {
		kept = append(kept, Kept{Line: at, Kind: KeptWater, Share: 0, Source: fmt.Sprintf("%q", w.said)})
	}
	return kept
}

// open says that salt which may be that of the cooking water is counted.
func (w cookingWater) open(a *Analysis) string {
	if len(w.maybe) == 0 || !a.shows(w.maybe) {
		return ""
	}
	if w.drawn {
		return fmt.Sprintf("%q: how much of the salt goes with the water that it draws cannot be known, all of it is counted; if most does, say \"keep 25%% of the water\"", w.said)
	}
	if w.untold {
		return fmt.Sprintf("%q: all of the salt is counted, as the directions do not say that the water is poured off; if it is, say \"keep 20%% of the water\"", w.said)
	}
	return fmt.Sprintf("%q: how much of the salt goes into the water that is poured off cannot be told, all of it is counted; if most does, say \"keep 20%% of the water\"", w.said)
}

// withoutPouredOff leaves out what goes into cooking water that is poured off: it is
// not what makes the dish.
func (b *base) withoutPouredOff(list []spot) []spot {
	if len(b.recipe.Method) == 0 {
		return list
	}
	w := b.assembled.follow(b.recipe.Method).water
	return slices.DeleteFunc(list, func(p spot) bool {
		return slices.ContainsFunc(append(slices.Clone(w.salt), w.water...), func(at int) bool { return p.got == &b.assembled.Lines[at] })
	})
}
