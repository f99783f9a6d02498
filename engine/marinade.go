package engine

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// marinadeFate is what directions tell of a marinade.
type marinadeFate struct {
	lines    []int
	thrown   bool    // it is thrown away, but for what was kept aside
	kept     float64 // share of it that was kept aside and is eaten
	keptSaid string  // what was kept aside: "1/4 cup"
	unclear  string  // the words by which it is used and thrown away, or kept in part, where no share can be told
	unsaid   bool    // nothing is told of it after marinating
}

// marinade reads what becomes of the marinade: the lines under a heading that
// names it, or else what the directions name up to marinating, without the meat,
// fish or tofu.
func (a *Analysis) marinade(steps []cookStep, k *pot) marinadeFate {
	var f marinadeFate
	var from int
	var sure bool
	f.lines, from, sure = a.marinadeLines(steps, k)
	if len(f.lines) == 0 {
		return f
	}
	words := make(map[string]bool)
	for _, at := range f.lines {
		for w := range k.words[at] {
			words[w] = !vagueName[w]
		}
	}
	meat := a.marinatedWords(k)
	base := a.base(f.lines)
	used, reserved, mixed, raw := false, false, false, true
	basted := false  // used, but only for basting
	implied := false // thrown away by taking the food out of it, not in so many words
	for i := range steps {
		s := &steps[i]
		mixed = i <= from && (mixed || slices.ContainsFunc(k.named(s), func(at int) bool { return slices.Contains(f.lines, at) }))
		said := saidIn(s)
		of := saidAny(said, "marinade|marinating liquid")
		raw = raw && (i <= from || s.method == "" || saidAny(said, "discard|drain|remove"))
		after := raw && (i > from && !f.thrown || i == from)
		mentions := of || i > from && raw && (saidAny(said, "soaking liquid|the liquid|liquid|mixture") || slices.ContainsFunc(s.words, func(w string) bool { return words[w] }))
		rest := saidAny(said, "rest|remaining|remainder|leftover|left over|unused|extra|excess|it|used")
		switch {
		case saidAny(said, "reserve|reserving|set aside|setting aside|save|saving|keep|keeping|hold back|put aside") && (of || mentions && reservedAmount.MatchString(said) || i == from && mentions || mixed && (reservedAmount.MatchString(said) || saidAny(said, "half")) && len(k.named(s)) == 0):
			share, amount, ok := a.reserved(said, f.lines)
			switch {
			case ok:
				f.kept, f.keptSaid, reserved = share, amount, true
			case saidAny(said, "some|a little|part of|a few"):
				f.unclear = s.said
			case of:
				used, reserved = true, true
				if implied {
					f.thrown, implied = false, false
				}
			}
			if ok && saidAny(said, "discard") {
				f.thrown = true
			}
		case saidAny(said, "discard") && (mentions || sure && after && (rest || bareDiscard(said))):
			if used && !reserved || f.unclear != "" {
				f.unclear = s.said
			}
			f.thrown, used, implied = true, false, false
		case sure && after && i > from && saidAny(said, "drain") && (of || len(drainedBy(steps, i)) == 0 && len(meat) > 0 || slices.ContainsFunc(drainedBy(steps, i), func(w string) bool { return meat[w] })):
			f.thrown, used, implied = true, false, true
		case i >= from && (raw || of) && fromLiquid(said, words) && !saidAny(said, "reserve|reserving"):
			f.thrown, used, implied = true, false, true
		case sure && raw && i > from && saidAny(said, "shake off|drip off|drip|pat dry|blot dry|pat them dry|pat it dry|wipe dry"):
			f.thrown, used, implied = true, false, true
		case i > from && raw && !f.thrown && saidAny(said, "everything|contents|marinade and all"):
			used = true
		case implied && f.thrown && base >= 0 && !saidAny(said, "discard") && slices.Contains(k.named(s), base):
			f.unclear = s.said
		case of && i > from && !saidAny(said, "marinate"):
			if f.thrown && !reserved { // used after all
				f.thrown = false
			}
			basted = !used && saidAny(said, "baste|basting|brush|brushing")
			used = used || !reserved
		}
	}
	if f.unclear != "" {
		f.thrown = false
	}
	// What is stewed is stewed in its marinade; what is grilled is not.
	wet, dry := false, false
	for _, s := range steps[min(from+1, len(steps)):] {
		wet = wet || s.method == bySimmered || s.method == byBoiled || s.method == byPressureCooked
		dry = dry || s.method == byGrilled || s.method == byBroiled
	}
	f.unsaid = sure && !f.thrown && !(used && !basted) && f.unclear == "" && (!reserved || f.kept > 0) && (dry || !wet)
	return f
}

// base returns the line that is most of a marinade, unless that is an oil, which
// directions name for the pan too; -1 if there is none.
func (a *Analysis) base(lines []int) int {
	base := -1
	for _, at := range lines {
		if base < 0 || a.Lines[at].Grams.Low > a.Lines[base].Grams.Low {
			base = at
		}
	}
	if base >= 0 && isFat(a.Lines[base].Food) {
		return -1
	}
	return base
}

// bareDiscard reports "discard" of something that is not named.
func bareDiscard(said string) bool { return strings.HasSuffix(said, " discard ") }

// fromLiquid reports that food is taken out of the marinade, or out of what is a
// part of it.
func fromLiquid(said string, words map[string]bool) bool {
	m := outOf.FindStringSubmatch(said)
	if m == nil {
		return false
	}
	for _, w := range strings.Fields(m[2]) {
		if w == "marinade" || w == "liquid" || w == "mixture" || words[w] {
			return true
		}
	}
	return false
}

var outOf = regexp.MustCompile(` (from|out of) ((?:[a-z]+ ){1,3})`)

var reservedAmount = regexp.MustCompile(`((?:\d+ )?\d+(?:[/.]\d+)?|[¼½¾⅓⅔⅛]) (cups?|tablespoons?|tbsp|teaspoons?|tsp|ml|fl oz|litres?|liters?) `)

// reserved reads how much of a liquid is kept aside, and which share of it that
// is: its volume against the weight of the lines, as if a millilitre weighed a
// gram, which errs on the side of more.
func (a *Analysis) reserved(said string, lines []int) (share float64, amount string, ok bool) {
	if saidAny(said, "half") && !reservedAmount.MatchString(said) {
		return 0.5, "half", true
	}
	m := reservedAmount.FindStringSubmatch(said)
	if m == nil {
		return 0, "", false
	}
	amount = m[1] + " " + m[2]
	item := grammar.ParseLine(amount + " water").Items[0]
	if item.Amount == nil || item.Amount.Terms[0].Measure == nil || item.Amount.Terms[0].Measure.Kind != grammar.Volume {
		return 0, "", false
	}
	grams := a.gramsOf(lines)
	if grams == 0 {
		return 0, "", false
	}
	t := item.Amount.Terms[0]
	return min(1, ratio(t.Quantity.Low)*ratio(t.Measure.Amount)/grams), amount, true
}

func (a *Analysis) gramsOf(lines []int) float64 {
	sum := 0.0
	for _, at := range lines {
		sum += a.Lines[at].Grams.Low
	}
	return sum
}

// marinadeLines returns the lines of the marinade and the step that marinates;
// none if nothing is marinated. It is sure if the text speaks of marinating or
// soaking, and not only of what stands in the refrigerator.
func (a *Analysis) marinadeLines(steps []cookStep, k *pot) (lines []int, at int, sure bool) {
	in, any := false, false
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Kind == grammar.Heading {
			in = strings.Contains(strings.ToLower(l.Text), "marinade")
			any = any || in
		} else if in && l.Status == Counted && !marinated(l) {
			lines = append(lines, i)
		}
	}
	if !any && !slices.ContainsFunc(steps, func(s cookStep) bool { return saidAny(saidIn(&s), marinates) }) {
		return nil, 0, false
	}
	first, cold := -1, -1
	vegetables, soaked := true, -1
	for i := range steps {
		for _, at := range k.named(&steps[i]) {
			vegetables = vegetables && !marinated(&a.Lines[at])
		}
		said := saidIn(&steps[i])
		switch {
		case first < 0 && (saidAny(said, "marinate|marinating|marinated") || saidAny(said, "refrigerate|overnight") && mentionsMarinade(steps)):
			first = i
		case soaked < 0 && !vegetables && saidAny(said, "soak|soaking"):
			soaked = i
		case cold < 0 && !vegetables && saidAny(said, "refrigerate|refrigerator|fridge|overnight"):
			cold = i
		}
	}
	sure = true
	if first < 0 {
		first = soaked
	}
	if first < 0 {
		first, sure = cold, any
	}
	if any {
		return lines, max(first, 0), true
	}
	if !sure && first >= 0 { // stood in the refrigerator, then grilled
		grilled := slices.ContainsFunc(steps[first:], func(s cookStep) bool { return s.method == byGrilled || s.method == byBroiled })
		sure = grilled && !slices.ContainsFunc(a.Lines, func(l Line) bool { return l.Status == Counted && groundMeat(&l) })
	}
	if first < 0 {
		return nil, 0, false
	}
	k = k.anew()
	for i := range steps[:first+1] {
		step := steps[i]
		if saidAny(saidIn(&step), "in the rest|with the rest|in the remaining|in the remainder|rest of the marinade|remaining marinade") { // of the marinade, not of the lines
			step.words = slices.DeleteFunc(slices.Clone(step.words), func(w string) bool { return w == "rest" || w == "remaining" })
		}
		for _, at := range k.named(&step) {
			k.in[at] = true
		}
	}
	if !slices.ContainsFunc(steps[:first+1], func(s cookStep) bool {
		return slices.ContainsFunc(k.named(&s), func(at int) bool { return !marinated(&a.Lines[at]) })
	}) && sure { // "Marinate 2 hours."
		return a.unnamedMarinade(steps[first+1:], k), first, sure
	}
	for at, in := range k.in {
		if in && a.Lines[at].Status == Counted && !marinated(&a.Lines[at]) && !(vegetables && strings.HasPrefix(a.Lines[at].Food.Group(), "Vegetables")) {
			lines = append(lines, at)
		}
	}
	return lines, first, sure
}

// unnamedMarinade returns the lines of a marinade that no step names: what meat lies
// in and no step after marinating puts to use.
func (a *Analysis) unnamedMarinade(after []cookStep, k *pot) []int {
	used := make(map[int]bool)
	for i := range after {
		if saidAny(saidIn(&after[i]), "discard|drain|from|out of") {
			continue
		}
		for _, at := range k.named(&after[i]) {
			used[at] = true
		}
	}
	var lines []int
	elsewhere := false
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Kind == grammar.Heading {
			elsewhere = saidAny(" "+strings.Join(plainWords(l.Text), " ")+" ", "sauce|glaze|dressing|topping|filling|salad|gravy|vinaigrette|serve|serving|garnish")
		}
		if l.Status == Counted && !elsewhere && !used[i] && !marinated(l) && inMarinade(l) {
			lines = append(lines, i)
		}
	}
	return lines
}

// inMarinade reports what a marinade is made of where no step tells.
func inMarinade(l *Line) bool {
	if isFat(l.Food) { // a spoon of it may be for the pan
		return l.Grams.Low > mostUsedUp
	}
	if soluble(l) {
		return true
	}
	return slices.ContainsFunc(fooddata.Normalise(l.Food.Name()), func(w string) bool { return marinadeWords[w] })
}

var marinadeWords = wordSet("sauce buttermilk yogurt garlic ginger ketchup mustard dressing teriyaki soy mirin sherry lemon lime worcestershire tamari miso salsa")

// marinates are the words of a step after which something is a marinade.
const marinates = "marinate|marinating|marinated|refrigerate|refrigerator|fridge|overnight|soak|soaking"

func mentionsMarinade(steps []cookStep) bool {
	return slices.ContainsFunc(steps, func(s cookStep) bool { return saidAny(saidIn(&s), "marinade|marinate") })
}

// marinatedWords are the words for what lies in the marinade.
func (a *Analysis) marinatedWords(k *pot) map[string]bool {
	words := make(map[string]bool)
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == Counted && marinated(l) {
			for w := range k.words[i] {
				words[w] = !vagueName[w]
			}
		}
	}
	return words
}

// marinated reports what lies in a marinade and is no part of it.
func marinated(l *Line) bool {
	switch l.Food.Group() {
	case "Beef Products", "Pork Products", "Poultry Products", "Lamb, Veal, and Game Products", "Finfish and Shellfish Products", "Sausages and Luncheon Meats":
		return true
	}
	return strings.HasPrefix(l.Food.Description(), "Tofu") || strings.HasPrefix(l.Food.Description(), "Tempeh")
}

// keptOf gives the share of the marinade that is eaten, with its source: what was
// kept aside, and the usual share of the rest.
func (f marinadeFate) keptOf(usual float64, source string) (float64, string) {
	if f.kept == 0 {
		return usual, source
	}
	return f.kept + (1-f.kept)*usual, fmt.Sprintf("%s kept aside, and %.0f %% of the rest: %s", f.keptSaid, usual*100, source)
}
