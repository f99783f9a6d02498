package engine

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// KeptKind says what part of a line is thrown away.
type KeptKind uint8

// The kinds.
const (
	KeptMarinade KeptKind = iota // the marinade that stays on the food
	KeptWater                    // what is dissolved in cooking water that is poured off
	KeptFat                      // the fat of meat that is drained
)

// Kept is an assumption on one line: the share of it, 0 to 1, that is eaten
// where the rest is thrown away. Of KeptFat it is the share of the line's fat,
// of the others that of the whole line.
type Kept struct {
	Line   int // index in Analysis.Lines
	Kind   KeptKind
	Share  float64
	Source string // where the share is from, or "told"
	brine  bool   // a brine, of kind KeptMarinade
}

// The shares that are kept if nothing else is told.
//
// Brine: what meat takes up goes by its weight, see brineTakenUp. Of a brine of
// anything else 15 % (common practice, no source).
//
// Poaching liquid: a tenth (common practice, no source).
//
// Marinade: a quarter (common practice, no source); it depends on the food, the
// time and how it is patted dry, and errs on the side of more sodium.
//
// Cooking water: a sixth. Salt goes where its water goes, and a pound of pasta
// takes up about 640 g of the usual 4 quarts, 3,785 g; see cookwater.go.
const (
	marinadeKept = 0.25
	waterKept    = 1.0 / 6
	brineKept    = 0.15
	poachingKept = 0.10
)

// KeptByDefault returns the share of a line that is kept if nothing else is
// told, with its source. Of fat it is 1 where the table does not show how much
// drains. It fails if a has no counted line of that index, or if fat is asked
// for and the line is not raw ground meat or bacon.
func (e *Engine) KeptByDefault(a *Analysis, line int, kind KeptKind) (Kept, error) {
	k := Kept{Line: line, Kind: kind}
	if err := a.canKeep(line); err != nil {
		return k, err
	}
	switch kind {
	case KeptMarinade:
		k.Share, k.Source = marinadeKept, "common practice, no source"
	case KeptWater:
		k.Share, k.Source = waterKept, "the share of 4 quarts of water that a pound of pasta takes up, by SR28"
	case KeptFat:
		if !groundMeat(&a.Lines[line]) && !isBacon(&a.Lines[line]) {
			return k, fmt.Errorf("how much fat drains from %s is not known: tell the share that stays", a.Lines[line].Food.Name())
		}
		k.Share, k.Source = e.fatKept(a.Lines[line].Food)
	}
	return k, nil
}

func (a *Analysis) canKeep(line int) error {
	if line < 0 || line >= len(a.Lines) || a.Lines[line].Status != Counted {
		return fmt.Errorf("there is no counted ingredient line %d", line)
	}
	return nil
}

// Keep returns a copy of a in which only the told shares of the lines are
// eaten; each line then says so among what it assumes. Of a marinade or of
// what was in cooking water the line's grams and all of its figures fall. Of
// drained fat the fats and their energy fall; the grams stay as assembled, and
// so does cholesterol, of which little drains (from memory). To set another
// share, start again from what Analyse gave: shares on shares multiply.
//
// Keep fails if a line is not counted or a share is not between 0 and 1. It may
// stand before [Engine.Cooked] or after.
func (a *Analysis) Keep(kept ...Kept) (*Analysis, error) {
	b := *a
	b.Lines, b.Notes, b.Changes = slices.Clone(a.Lines), slices.Clone(a.Notes), slices.Clone(a.Changes)
	for _, k := range kept {
		if err := b.canKeep(k.Line); err != nil {
			return nil, err
		}
		if math.IsNaN(k.Share) || k.Share < 0 || k.Share > 1 {
			return nil, fmt.Errorf("the share kept must be between 0 %% and 100 %%")
		}
		l := &b.Lines[k.Line]
		what := "kept, the rest thrown away"
		switch k.Kind {
		case KeptMarinade:
			what = "of this marinade kept, the rest thrown away"
			if k.brine {
				what = "of this brine taken up, the rest thrown away"
			}
		case KeptWater:
			what = "taken up from the cooking water, the rest thrown away"
		case KeptFat:
			what = "of the fat kept, the rest drained"
			l.loseFat(k.Share)
		}
		if k.Kind != KeptFat {
			l.Grams = l.Grams.times(k.Share)
		}
		l.Assumed = slices.DeleteFunc(slices.Clone(l.Assumed), func(s string) bool { return s == allOfSalt })
		note := fmt.Sprintf("%s %% %s (%s)", show(k.Share*100), what, k.Source)
		switch {
		case k.Kind == KeptFat && k.Share == 1:
			note = k.Source // there is nothing to tell the share by
		case k.Kind == KeptWater && k.Share == 0:
			note = "poured off, none of it is counted (" + k.Source + ")"
		}
		l.Assumed = append(l.Assumed, note)
	}
	b.sum()
	for i, c := range b.Changes {
		b.Changes[i] = b.recooked(a, c)
	}
	return &b, nil
}

// Discarded returns what the directions throw away of the lines of a, at the
// shares kept by default: a marinade, a brine (of kind KeptMarinade), a poaching
// liquid, cooking water and its salt where it is poured off (of kind KeptWater),
// the fat of browned ground meat and of bacon. The marinade is what stands under a heading that
// names it, or else what the directions name up to marinating, without the meat,
// fish or tofu. It returns nothing where the directions do not say that
// something is thrown away.
func (e *Engine) Discarded(a *Analysis, method []string) []Kept { return e.discarded(a.follow(method)) }

func (e *Engine) discarded(d *thrown) []Kept {
	a, steps := d.a, d.steps
	var kept []Kept
	add := func(lines []int, kind KeptKind) {
		for _, at := range lines {
			if k, err := e.KeptByDefault(a, at, kind); err == nil && !slices.ContainsFunc(kept, func(o Kept) bool { return o.Line == at }) {
				kept = append(kept, k)
			}
		}
	}
	if f := d.marinade; f.thrown && d.brineEnd == 0 {
		add(f.lines, KeptMarinade)
		for i := range kept {
			kept[i].Share, kept[i].Source = f.keptOf(kept[i].Share, kept[i].Source)
		}
	}
	if d.fatDrained() {
		var ground []int
		for i := range a.Lines {
			if a.Lines[i].Status == Counted && groundMeat(&a.Lines[i]) {
				ground = append(ground, i)
			}
		}
		add(ground, KeptFat)
	}
	for _, k := range append(d.water.pourOff(), e.baconFat(a, d.bacon)...) {
		if !slices.ContainsFunc(kept, func(o Kept) bool { return o.Line == k.Line }) {
			kept = append(kept, k)
		}
	}
	share := func(lines []int, kind KeptKind, share float64) {
		from := len(kept)
		add(lines, kind)
		for i := from; i < len(kept); i++ {
			kept[i].Share, kept[i].Source, kept[i].brine = share, "common practice, no source", kind == KeptMarinade
		}
	}
	if end := d.brineEnd; end > 0 {
		lines := a.brine(steps, end)
		from := len(kept)
		share(lines, KeptMarinade, brineKept)
		if s, source, ok := a.brineShare(lines, steps); ok {
			for i := from; i < len(kept); i++ {
				kept[i].Share, kept[i].Source = s, source
			}
		}
	}
	if end := poachingThrownAway(steps); end > 0 {
		share(a.liquidOf(steps, end, "poaching"), KeptWater, poachingKept)
	}
	return kept
}

// poachingThrownAway returns how many steps there are up to the one that throws
// a poaching liquid away or takes the food out of it; 0 if none does, or if the
// liquid is used again.
func poachingThrownAway(steps []cookStep) int {
	const names = "poaching liquid|poaching water|cooking liquid|cooking water|simmering liquid|court bouillon"
	poached, end := false, 0
	for i := range steps {
		said := saidIn(&steps[i])
		poached = poached || saidAny(said, "poach|poached|poaching")
		has := saidAny(said, names) || poached && saidAny(said, "the liquid|the water|liquid")
		switch {
		case has && saidAny(said, "reserve|reserving|reserved|save|keep|strain|reduce"):
			return 0
		case has && saidAny(said, "discard|discarding|drain|pour off|from the poaching liquid|from poaching liquid|from the liquid|from the cooking liquid|from the court bouillon"):
			end = i + 1
		case end > 0 && has:
			return 0
		}
	}
	return end
}

// liquidOf returns the lines of a liquid that the step before end throws away:
// salt, sugar, spices, water, wine, vinegar and broth that a step of the liquid
// names, and salt, water and the like that no step names; never what a later
// step names, or what stands under the heading of a sauce. Of several lines of
// salt the largest is meant. Use is what the line's own words may call it.
func (a *Analysis) liquidOf(steps []cookStep, end int, use string) []int {
	var lines []int
	salt, elsewhere := -1, false
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Kind == grammar.Heading {
			elsewhere = saidAny(" "+strings.Join(plainWords(l.Text), " ")+" ", "sauce|rub|glaze|dressing|topping|filling|salad|gravy|vinaigrette|serve|serving|garnish")
		}
		if l.Status != Counted || elsewhere || !soluble(l) {
			continue
		}
		words := wordsNaming(l)
		for _, w := range kindNames[l.Food.Group()] {
			delete(words, w)
		}
		named, ofLiquid, later := false, slices.Contains(plainWords(l.Text), use), false
		for j := range steps {
			if !slices.ContainsFunc(steps[j].words, func(w string) bool { return words[w] }) {
				continue
			}
			named = true
			later = later || j >= end
			ofLiquid = ofLiquid || j < end && saidAny(saidIn(&steps[j]), "poach|poaching|simmer|simmering|boil|brine|brining|dissolve|dissolved|water|liquid")
		}
		salted := plainSalt(l)
		switch {
		case later && !(salted && l.Grams.Low > mostUsedUp), named && !ofLiquid, !named && !ofLiquid && !plainLiquid(l):
		case !salted:
			lines = append(lines, i)
		case salt < 0 || l.Grams.Low > a.Lines[salt].Grams.Low:
			salt = i
		}
	}
	if salt >= 0 {
		lines = append(lines, salt)
	}
	slices.Sort(lines)
	return lines
}

func plainSalt(l *Line) bool { return strings.HasPrefix(l.Food.Description(), "Salt,") }

// plainLiquid reports what a liquid is made of where no step tells: salt, water,
// wine, vinegar, white sugar. A broth or a spice may be that of a sauce or a rub.
func plainLiquid(l *Line) bool {
	name := fooddata.Normalise(l.Food.Name())
	return plainSalt(l) || slices.Contains(name, "water") || slices.Contains(name, "wine") || slices.Contains(name, "vinegar") ||
		slices.Contains(name, "sugar") && slices.Contains(name, "granulated")
}

// soluble reports what may be a liquid's own, and not what is cooked in it.
func soluble(l *Line) bool {
	if isSalt(l) || l.Food.Group() == "Spices and Herbs" || l.Food.Group() == "Beverages" {
		return true
	}
	return slices.ContainsFunc(fooddata.Normalise(l.Food.Name()), func(w string) bool { return dissolved[w] })
}

var dissolved = wordSet("sugar honey molasses syrup vinegar water broth stock wine beer cider juice")

// saltsWater reports that the step at puts salt into water that is then poured
// off: "bring the water to a boil; add the salt. Cook the pasta; drain."
func saltsWater(steps []cookStep, at int) bool {
	said := saidIn(&steps[at])
	if at > 0 {
		said = saidIn(&steps[at-1]) + said
	}
	if !saidAny(said, "water") || !saidAny(said, "boil|boiling") {
		return false
	}
	for _, s := range steps[at:min(len(steps), at+5)] {
		if s.method != "" && s.method != byBoiled {
			return s.method == byBoiledAndDrained
		}
	}
	return false
}
