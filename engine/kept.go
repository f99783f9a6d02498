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
// Brine: 15 % (common practice, no source); how much goes into the meat depends
// on its size and the time.
//
// Poaching liquid: a tenth (common practice, no source).
//
// Marinade: a quarter (common practice, no source); it depends on the food, the
// time and how it is patted dry, and errs on the side of more sodium.
//
// Cooking water: a sixth. Salt goes where its water goes, and a pound of pasta
// takes up about 640 g (SR28: 74.7 g carbohydrate in 100 g dry, 20120, 30.9 g
// cooked, 20121) of the usual 4 quarts, 3,785 g.
const (
	marinadeKept = 0.25
	waterKept    = 1.0 / 6
	brineKept    = 0.15
	poachingKept = 0.10
)

// browned pairs raw ground meat with the same meat as drained crumbles, pan-
// broiled or else broiled, by SR28 number.
var browned = map[string]string{
	"13498": "13494", "23577": "23580", "23572": "23575", "23567": "23570", "23562": "23565", "23472": "23476", "23557": "23560", "23477": "23481", // beef, 70 % to 97 % lean
	"10219": "10220", "10972": "10975", "10973": "10976", // pork
	"05332": "05333", "05305": "05306", "05665": "05666", "05668": "05669", // chicken, turkey
	"17224": "17225", "17142": "17143", "17330": "17331", "17343": "17344", // lamb, veal, bison, venison
}

// KeptByDefault returns the share of a line that is kept if nothing else is
// told, with its source. Of fat it is 1 where the table does not show how much
// drains. It fails if a has no counted line of that index, or if fat is asked
// for and the line is not raw ground meat.
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
		if !groundMeat(&a.Lines[line]) {
			return k, fmt.Errorf("how much fat drains from %s is not known: tell the share that stays", a.Lines[line].Food.Name())
		}
		k.Share, k.Source = e.fatKept(a.Lines[line].Food)
	}
	return k, nil
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

func (a *Analysis) canKeep(line int) error {
	if line < 0 || line >= len(a.Lines) || a.Lines[line].Status != Counted {
		return fmt.Errorf("there is no counted ingredient line %d", line)
	}
	return nil
}

// fats are the figures that fall with the fat of a line.
var fats = []fooddata.Nutrient{fooddata.Fat, fooddata.SaturatedFat, fooddata.TransFat, fooddata.MonounsaturatedFat, fooddata.PolyunsaturatedFat,
	fooddata.LinoleicAcid, fooddata.LinolenicAcid, fooddata.ALA, fooddata.EPA, fooddata.DHA}

// kcalPerGramMeatFat is the energy of meat fat in the table (USDA Agriculture
// Handbook 74: 9.02 kcal/g).
const kcalPerGramMeatFat = 9.02

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
				what = "of this brine kept, the rest thrown away"
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
		note := fmt.Sprintf("%.0f %% %s (%s)", k.Share*100, what, k.Source)
		if k.Kind == KeptFat && k.Share == 1 {
			note = k.Source // there is nothing to tell the share by
		}
		l.Assumed = append(l.Assumed, note)
	}
	b.sum()
	for i, c := range b.Changes {
		b.Changes[i] = b.recooked(a, c)
	}
	return &b, nil
}

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

// Discarded returns what the directions throw away of the lines of a, at the
// shares kept by default: a marinade, a brine (of kind KeptMarinade), a poaching
// liquid and salt in water that is poured off (of kind KeptWater), the fat of
// browned ground meat. The marinade is what stands under a heading that
// names it, or else what the directions name up to marinating, without the meat,
// fish or tofu. It returns nothing where the directions do not say that
// something is thrown away.
func (e *Engine) Discarded(a *Analysis, method []string) []Kept {
	steps := readSteps(method)
	var kept []Kept
	add := func(lines []int, kind KeptKind) {
		for _, at := range lines {
			if k, err := e.KeptByDefault(a, at, kind); err == nil && !slices.ContainsFunc(kept, func(o Kept) bool { return o.Line == at }) {
				kept = append(kept, k)
			}
		}
	}
	if marinadeThrownAway(steps) {
		add(a.marinade(steps), KeptMarinade)
	}
	if fatDrained(steps) {
		var ground []int
		for i := range a.Lines {
			if a.Lines[i].Status == Counted && groundMeat(&a.Lines[i]) {
				ground = append(ground, i)
			}
		}
		add(ground, KeptFat)
	}
	add(a.saltOfWater(steps), KeptWater)
	share := func(lines []int, kind KeptKind, share float64) {
		from := len(kept)
		add(lines, kind)
		for i := from; i < len(kept); i++ {
			kept[i].Share, kept[i].Source, kept[i].brine = share, "common practice, no source", kind == KeptMarinade
		}
	}
	if end := a.brineThrownAway(steps); end > 0 {
		share(a.brine(steps, end), KeptMarinade, brineKept)
	}
	if end := poachingThrownAway(steps); end > 0 {
		share(a.liquidOf(steps, end, "poaching"), KeptWater, poachingKept)
	}
	return kept
}

// saidAny reports whether text, with a space at either end, holds one of the
// phrases that are divided by bars.
func saidAny(text, phrases string) bool {
	for p := range strings.SplitSeq(phrases, "|") {
		if strings.Contains(text, " "+p+" ") {
			return true
		}
	}
	return false
}

// brineThrownAway returns how many steps there are up to the one that throws a
// brine away; 0 if none does. Meat is not eaten with its brine: there "drain" or
// "pat dry" is enough, which for a pickle is not.
func (a *Analysis) brineThrownAway(steps []cookStep) int {
	meat := false
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Kind == grammar.Ingredient && slices.Contains(l.Item.Words, "brine") { // "1/4 cup pickle brine" is an ingredient
			return 0
		}
		meat = meat || l.Status == Counted && marinated(l)
	}
	brined, end := false, 0
	for i := range steps {
		said := saidIn(&steps[i])
		has := saidAny(said, "brine|brining|brined")
		switch {
		case has && saidAny(said, "reserve|reserving|reserved|save|keep"):
			return 0
		case end > 0 && has && !saidAny(said, "discard|discarding"): // used after all
			return 0
		}
		brined = brined || has
		if end == 0 && brined && (has && saidAny(said, "discard|discarding|drain|from brine|from the brine|out of the brine|rinse|pour off") ||
			meat && saidAny(said, "discard|drain|rinse|pat dry|pat it dry|pat them dry|dry")) {
			end = i + 1
		}
	}
	return end
}

// brine returns the lines of the brine, which the step before end throws away:
// those under a heading that names it, or else the salt, sugar and liquids that
// no later step names.
func (a *Analysis) brine(steps []cookStep, end int) []int {
	var under []int
	in := false
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Kind == grammar.Heading {
			in = saidAny(" "+strings.Join(plainWords(l.Text), " ")+" ", "brine|brining")
		} else if in && l.Status == Counted && !marinated(l) {
			under = append(under, i)
		}
	}
	if len(under) > 0 {
		return under
	}
	return a.liquidOf(steps, end, "brine")
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

func saidIn(s *cookStep) string { return " " + strings.Join(plainWords(s.said), " ") + " " }

// marinadeThrownAway reports whether the directions discard a marinade and do
// not use it again.
func marinadeThrownAway(steps []cookStep) bool {
	thrown := false
	for i := range steps {
		said := saidIn(&steps[i])
		if !strings.Contains(said, " marinade ") {
			continue
		}
		switch {
		case strings.Contains(said, " reserve ") || strings.Contains(said, " reserving ") || strings.Contains(said, " reserved "):
			return false
		case strings.Contains(said, " discard ") || strings.Contains(said, " discarding ") || strings.Contains(said, " from marinade ") || strings.Contains(said, " from the marinade ") || strings.Contains(said, " drain "):
			thrown = true
		case thrown: // used after all
			return false
		}
	}
	return thrown
}

// marinade returns the lines of the marinade.
func (a *Analysis) marinade(steps []cookStep) []int {
	var under []int
	in := false
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Kind == grammar.Heading {
			in = strings.Contains(strings.ToLower(l.Text), "marinade")
		} else if in && l.Status == Counted && !marinated(l) {
			under = append(under, i)
		}
	}
	if len(under) > 0 {
		return under
	}
	k := newPot(a.Lines)
	vegetables := true
	for i := range steps {
		for _, at := range k.named(&steps[i]) {
			k.in[at] = true
			vegetables = vegetables && !marinated(&a.Lines[at])
		}
		if said := saidIn(&steps[i]); !strings.Contains(said, " marinate ") && !strings.Contains(said, " refrigerate ") && !strings.Contains(said, " overnight ") {
			continue
		}
		for at, in := range k.in {
			if in && a.Lines[at].Status == Counted && !marinated(&a.Lines[at]) && !(vegetables && strings.HasPrefix(a.Lines[at].Food.Group(), "Vegetables")) {
				under = append(under, at)
			}
		}
		break
	}
	return under
}

// marinated reports what lies in a marinade and is no part of it.
func marinated(l *Line) bool {
	switch l.Food.Group() {
	case "Beef Products", "Pork Products", "Poultry Products", "Lamb, Veal, and Game Products", "Finfish and Shellfish Products", "Sausages and Luncheon Meats":
		return true
	}
	return strings.HasPrefix(l.Food.Description(), "Tofu") || strings.HasPrefix(l.Food.Description(), "Tempeh")
}

// fatDrained reports whether the directions drain fat: "drain fat", or "drain"
// after browning.
func fatDrained(steps []cookStep) bool {
	pan := false
	for i := range steps {
		s := &steps[i]
		if s.method != "" {
			pan = s.method == byFried || s.method == bySauteed || s.method == byHeated && slices.ContainsFunc(s.words, func(w string) bool { return w == "beef" || w == "meat" || w == "turkey" || w == "pork" })
		}
		said := saidIn(s)
		poured := slices.ContainsFunc(pouredOff, func(words string) bool { return strings.Contains(said, words) })
		if poured && (fatPattern.MatchString(said) || pan && strings.Contains(said, " drain ") && s.drainsNothingElse()) {
			return true
		}
	}
	return false
}

// pouredOff are the words by which directions take fat away.
var pouredOff = []string{" drain ", " pour off ", " pour away ", " tip off ", " tip away ", " discard ", " spoon off ", " skim off "}

// drainsNothingElse reports that a step says to drain and not, say, the beans.
func (s *cookStep) drainsNothingElse() bool {
	return !slices.ContainsFunc(s.words, func(w string) bool {
		return w == "bean" || w == "pasta" || w == "tuna" || w == "tomato" || w == "potato" || w == "noodle" || w == "chickpea" || w == "corn" || w == "tofu" || w == "towel" || pastaWords[w]
	})
}

// saltOfWater returns the lines of salt that goes into water that is poured
// off, by the line itself ("1 tbsp salt, for the pasta water") or by the step
// that boils and drains.
func (a *Analysis) saltOfWater(steps []cookStep) []int {
	var salt []int
	poured := slices.ContainsFunc(steps, func(s cookStep) bool { return s.method == byBoiledAndDrained })
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Status != Counted || !strings.HasPrefix(l.Food.Description(), "Salt,") {
			continue
		}
		text := strings.ToLower(l.Text)
		here, elsewhere := false, false
		for j := range steps {
			if slices.Contains(steps[j].words, "salt") {
				here = here || steps[j].method == byBoiledAndDrained
				elsewhere = elsewhere || steps[j].method != byBoiledAndDrained
			}
		}
		forWater := strings.Contains(text, "water") && (strings.Contains(text, " for ") || strings.Contains(text, "boiling"))
		if poured && (forWater || here && !elsewhere) {
			salt = append(salt, i)
		}
	}
	return salt
}
