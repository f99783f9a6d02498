package engine

import (
	"fmt"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// leftOpen returns, a sentence each, what directions throw away and is counted all
// the same, because how much of it is eaten cannot be told. Kept is what was taken
// off.
func (e *Engine) leftOpen(d *thrown, kept []Kept) []string {
	a, steps, k := d.a, d.steps, d.pot
	taken := func(lines []int) bool {
		return slices.ContainsFunc(lines, func(at int) bool { return slices.ContainsFunc(kept, func(k Kept) bool { return k.Line == at }) })
	}
	var notes []string
	say := func(format string, args ...any) {
		if note := fmt.Sprintf(format, args...); !slices.Contains(notes, note) {
			notes = append(notes, note)
		}
	}
	f := d.marinade
	if len(f.lines) > 0 && !taken(f.lines) && d.brineEnd == 0 && a.shows(f.lines) {
		switch {
		case f.unclear != "":
			say("%q: how much of the marinade is eaten cannot be told, all of it is counted; say for instance \"keep 50%% of the marinade\"", f.unclear)
		case f.unsaid && a.isBath(f.lines):
			say("all of the marinade is counted, as the directions do not say what becomes of it; if most is thrown away, say \"keep 25%% of the marinade\"")
		}
	}
	if note := d.water.open(a); note != "" && !taken(d.water.maybe) {
		notes = append(notes, note)
	}
	if note := e.openBacon(a, d.bacon); note != "" && !taken(d.bacon.lines) {
		notes = append(notes, note)
	}
	fat := slices.ContainsFunc(kept, func(k Kept) bool { return k.Kind == KeptFat })
	for i := range steps {
		s := &steps[i]
		said := saidIn(s)
		switch {
		case fatPattern.MatchString(said) && saidAny(said, pouredOff):
			if food := a.fatty(); !fat && food != "" {
				fat = true
				say("%q: how much fat drains from %s is not known, all of it is counted", s.said, food)
			}
			continue
		case !saidAny(said, "discard") || saidAny(said, "marinade|brine"):
			continue
		}
		object := afterVerb(s, "discard")
		if slices.ContainsFunc(object, func(w string) bool { return partsOfFood[w] }) {
			continue
		}
		it := cookStep{heat: heat{said: strings.Join(object, " ")}, words: object}
		var lines []int
		for _, at := range k.named(&it) {
			if a.Lines[at].Status == Counted && a.shows([]int{at}) {
				lines = append(lines, at)
			}
		}
		switch {
		case taken(k.named(&it)):
		case slices.ContainsFunc(object, func(w string) bool { return strainedOut[w] }):
			say("%q: what is thrown away there is counted all the same", s.said)
		case len(lines) > 0:
			for _, at := range lines {
				if saidAny(said, "excess|extra|any|remaining|leftover|unused|all but|rest") {
					say("%q: how much of the %s is left over cannot be told, all of it is counted", s.said, strings.Join(a.Lines[at].Item.Words, " "))
					continue
				}
				say("%q: the %s is counted all the same; if none of it is eaten, say \"drop the %s\"", s.said, strings.Join(a.Lines[at].Item.Words, " "), strings.Join(a.Lines[at].Item.Words, " "))
			}
		case len(kept) == 0 && slices.ContainsFunc(object, func(w string) bool { return w == "liquid" || w == "water" }):
			var salty []int
			for at, in := range k.before(steps[:i]) {
				if l := &a.Lines[at]; in && l.Status == Counted && soluble(l) && a.shows([]int{at}) {
					salty = append(salty, at)
				}
			}
			if len(salty) > 0 {
				say("%q: how much of the %s goes with it cannot be told, all of it is counted", s.said, strings.Join(a.Lines[salty[0]].Item.Words, " "))
			}
		}
	}
	return notes
}

// before reports which lines steps name.
func (k *pot) before(steps []cookStep) []bool {
	k = k.anew()
	for i := range steps {
		for _, at := range k.named(&steps[i]) {
			k.in[at] = true
		}
	}
	return k.in
}

// partsOfFood name parts of a food, and things that are no food.
var partsOfFood = wordSet("stem seed skin rib shell peel core end pit stone bone top leaf leave rind pith tail head cob husk string toothpick foil bag wrapper unopened open opened membrane vein gill root outer stalk parchment skewer twine sprig bay carcass crumb foam scum grit sand tough woody")

// strainedOut are words for what stays in a strainer.
var strainedOut = wordSet("solid vegetable aromatic herb")

// shows reports whether lines bring a serving so much sodium or energy that it
// matters whether they are eaten: 100 mg or 20 kcal.
func (a *Analysis) shows(lines []int) bool {
	sodium, energy := 0.0, 0.0
	for _, at := range lines {
		s, _ := a.Lines[at].Has(fooddata.Sodium)
		e, _ := a.Lines[at].Has(fooddata.Energy)
		sodium, energy = sodium+s.Low, energy+e.Low
	}
	return sodium/a.Servings >= 100 || energy/a.Servings >= 20
}

// leastBath is the share of the weight of the meat from which a marinade is more
// than what clings to it (common practice, no source).
const leastBath = 0.15

// isBath reports whether lines are so much that some of it stays behind.
func (a *Analysis) isBath(lines []int) bool {
	meat := 0.0
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == Counted && marinated(l) {
			meat += l.Grams.Low
		}
	}
	return a.gramsOf(lines) >= leastBath*meat
}

// fatty returns the name of the meat that brings the most fat; "" if none does.
func (a *Analysis) fatty() string {
	name, most := "", 5.0
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Kind != grammar.Ingredient || l.Status != Counted || !marinated(l) || l.Food.Group() == "Finfish and Shellfish Products" || l.Food.State() == fooddata.Cooked {
			continue
		}
		if fat, ok := l.Has(fooddata.Fat); ok && fat.Low > most {
			name, most = l.Food.Name(), fat.Low
		}
	}
	return name
}
