package engine

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"regexp"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// Scaled is a recipe for another number of servings.
type Scaled struct {
	Recipe *grammar.Recipe // exact amounts: what figures are worked out from
	Lines  []ScaledLine    // every ingredient line, in order
	Notes  []string        // what does not follow the factor, in plain words
}

// ScaledLine is how one line reads before and after. A line that has nothing
// to scale reads the same in all three.
type ScaledLine struct {
	Line    int     // index in Recipe.Lines
	Was     string  // as it stood
	Exact   string  // with the exact amount: "5/12 cup oats"
	Kitchen string  // with an amount that can be measured: "1/3 cup plus 4 tsp oats"
	Error   float64 // of Kitchen: 0.02 is 2 % more than exact
}

// MostScale is the largest factor that a recipe is scaled by; its inverse is
// the smallest.
const MostScale = 1000

// Scale multiplies every amount of r and its servings by factor, exactly, and
// leaves r as it was: scaling by a and then by 1/a gives the same amounts. The
// figures of a serving stay what they were. It returns an error, in plain
// words, for a factor that is not above zero or is absurd.
func Scale(r *grammar.Recipe, factor *big.Rat) (*Scaled, error) {
	if err := checkScale(factor); err != nil {
		return nil, err
	}
	s := &Scaled{}
	var edits []Edit
	for i, line := range r.Lines {
		if line.Kind != grammar.Ingredient {
			continue
		}
		l := ScaledLine{Line: i, Was: line.Text, Exact: line.Text, Kitchen: line.Text}
		switch {
		case line.Fault != nil:
			s.note("%q could not be read and is not scaled", line.Text)
		case hasAmount(line) && factor.Cmp(wholeOne) != 0:
			items := make([]grammar.Item, len(line.Items))
			for j, item := range line.Items {
				items[j] = Multiply(item, factor)
			}
			l.Exact = LineText(items, line.Items)
			l.Kitchen, l.Error = lineText(items, line.Items, func(item grammar.Item) piece { return kitchenPiece(item, r.Metric) })
			edits = append(edits, Edit{Kind: EditMultiply, Line: i, Factor: factor, Text: l.Exact})
		}
		s.Lines = append(s.Lines, l)
	}
	var err error
	if s.Recipe, err = Apply(r, edits...); err != nil {
		return nil, err
	}
	if r.Servings.Low != nil && factor.Cmp(wholeOne) != 0 {
		setServings(s.Recipe, r, r.Servings.Times(factor))
	}
	s.warn(r, factor)
	s.warnRounded()
	return s, nil
}

// farOff is the relative error of a line from which it is told.
const farOff = 0.1

// warnRounded tells of the whole things and packages that cannot be parted so
// exactly: the figures are of the exact amounts.
func (s *Scaled) warnRounded() {
	var lines []string
	for _, l := range s.Lines {
		if off := math.Abs(l.Error); off > farOff && wholeThings(s.Recipe.Lines[l.Line]) {
			more := "more"
			if l.Error < 0 {
				more = "less"
			}
			lines = append(lines, fmt.Sprintf("%s is %.0f %% %s", l.Kitchen, 100*off, more))
		}
	}
	if len(lines) > 0 {
		s.note("the figures are of the exact amounts; rounded to what can be measured, %s", strings.Join(lines, "; "))
	}
}

// wholeThings reports a line that counts things or packages.
func wholeThings(line grammar.Line) bool {
	return slices.ContainsFunc(line.Items, func(item grammar.Item) bool {
		if item.Amount == nil {
			return false
		}
		m := item.Amount.Terms[0].Measure
		return m == nil || m.Kind == grammar.Count || m.Kind == grammar.Container
	})
}

// ScaleToServings scales r to the number of servings. Of a range the smaller
// number is scaled from, the one that figures are for. It returns an error, in
// plain words, if r does not say how many it serves, or as Scale does.
func ScaleToServings(r *grammar.Recipe, servings *big.Rat) (*Scaled, error) {
	switch {
	case servings == nil || servings.Sign() <= 0:
		return nil, fmt.Errorf("a recipe cannot be made for %s servings: the number must be above zero", ratWords(servings))
	case r.Servings.Low == nil || r.Servings.Low.Sign() <= 0:
		return nil, errors.New("the recipe does not say how many it serves: give that first, or give a factor such as 1 1/2")
	}
	s, err := Scale(r, new(big.Rat).Quo(servings, r.Servings.Low))
	if err != nil {
		return nil, fmt.Errorf("from %s servings to %s: %w", r.Servings, ratWords(servings), err)
	}
	if r.Servings.IsRange() {
		setServings(s.Recipe, r, grammar.Quantity{Low: servings, High: servings})
		s.note("the recipe is for %s servings: scaled from %s, the number that its figures are for", r.Servings, ratWords(r.Servings.Low))
	}
	return s, nil
}

func checkScale(factor *big.Rat) error {
	most := big.NewRat(MostScale, 1)
	switch {
	case factor == nil:
		return errors.New("there is no factor to scale by: give one such as 2 or 1/2")
	case factor.Sign() <= 0:
		return fmt.Errorf("a recipe cannot be scaled by %s: the factor must be above zero", ratWords(factor))
	case factor.Cmp(most) > 0:
		return fmt.Errorf("%s times the recipe is more than pottle scales: %d times is the most", ratWords(factor), MostScale)
	case factor.Cmp(new(big.Rat).Inv(most)) < 0:
		return fmt.Errorf("less than 1/%d of the recipe is smaller than pottle scales", MostScale)
	case factor.Denom().BitLen() > 64 || factor.Num().BitLen() > 64:
		return errors.New("the factor has too many digits: give a shorter one such as 1 1/2 or 0.75")
	}
	return nil
}

// ratWords writes a number for a sentence, cut short if it is long.
func ratWords(r *big.Rat) string {
	if r == nil {
		return "no"
	}
	const long = 12
	if s := (grammar.Quantity{Low: r, High: r}).String(); len(s) <= long {
		return s
	}
	if f, _ := r.Float64(); f >= 1e9 || f <= -1e9 {
		return fmt.Sprintf("%.3g", f)
	}
	return strings.TrimRight(strings.TrimRight(r.FloatString(2), "0"), ".")
}

func (s *Scaled) note(format string, args ...any) {
	s.Notes = append(s.Notes, fmt.Sprintf(format, args...))
}

// hasAmount reports whether an item of the line has an amount.
func hasAmount(line grammar.Line) bool {
	return slices.ContainsFunc(line.Items, func(item grammar.Item) bool {
		return item.Amount != nil || slices.ContainsFunc(item.Or, func(o grammar.Item) bool { return o.Amount != nil })
	})
}

// setServings gives changed, which is r scaled, its servings, and the line
// that tells them.
func setServings(changed, r *grammar.Recipe, servings grammar.Quantity) {
	changed.Servings = servings
	changed.Yield = yieldText(r.Yield, r.Servings, servings)
	for i, l := range changed.Lines {
		if l.Kind == grammar.Note && l.Text == r.Yield && r.Yield != "" {
			changed.Lines[i].Text = changed.Yield
			break
		}
	}
}

var numberInYield = regexp.MustCompile(`\d+(?: \d+/\d+|/\d+|\.\d+)?`)

// yieldText is the line of servings with its number changed, in the recipe's
// own words where it holds no other number: "Makes 24 muffins".
func yieldText(yield string, was, now grammar.Quantity) string {
	only := true
	text := numberInYield.ReplaceAllStringFunc(yield, func(n string) string {
		switch n {
		case was.Low.RatString(), ratWords(was.Low):
			return ratWords(now.Low)
		case was.High.RatString(), ratWords(was.High):
			return ratWords(now.High)
		}
		only = false
		return n
	})
	if !only || text == yield && was.Low.Cmp(now.Low) != 0 {
		return "serves " + now.String()
	}
	return text
}

// KitchenItem writes an item as a line that a cook can follow, with the
// relative error of its amount: as KitchenAmount, and with words for what comes
// whole: eggs, cans, packets, sticks of butter. Figures belong to the item.
func KitchenItem(item grammar.Item, metric bool) (line string, err float64) {
	return itemText(item, item, func(item grammar.Item) piece { return kitchenPiece(item, metric) })
}

// kitchenPiece says how to measure an item, and what to do with things that
// come whole.
func kitchenPiece(item grammar.Item, metric bool) piece {
	if p, ok := eggPiece(item); ok {
		return p
	}
	a := *item.Amount
	if sticks, ok := cutStick(item); ok {
		a = sticks
	}
	kitchen, _, err := KitchenAmount(a, metric, Nearest)
	if len(kitchen.Terms) == 0 { // of nothing
		return exactPiece(item)
	}
	p := saidPiece(kitchen)
	p.err = err
	if t := kitchen.Terms[0]; len(kitchen.Terms) == 1 && !t.Quantity.Low.IsInt() {
		exact := item.Amount.Terms[0].Quantity
		p.tail = partOpened(item, t, exact, metric)
		if t.Each != nil && p.tail != "" { // what is weighed is exact
			p.err = 0
		}
	}
	return p
}

// cutStick gives part of a stick of butter in tablespoons, by the marks on its
// wrapper: 8 to a stick (USDA Family Fare).
func cutStick(item grammar.Item) (grammar.Amount, bool) {
	t := item.Amount.Terms[0]
	words := foodOf(item)
	if t.Measure == nil || t.Measure.Name != "stick" || t.Each != nil || len(item.Amount.Terms) > 1 ||
		!slices.Contains(words, "butter") && !slices.Contains(words, "margarine") ||
		new(big.Rat).Mul(t.Quantity.Low, big.NewRat(2, 1)).IsInt() && new(big.Rat).Mul(t.Quantity.High, big.NewRat(2, 1)).IsInt() {
		return grammar.Amount{}, false
	}
	t.Quantity, t.Measure = t.Quantity.Times(big.NewRat(8, 1)), measureNamed("tbsp")
	return grammar.Amount{Terms: []grammar.Term{t}, Same: item.Amount.Same, Words: item.Amount.Words}, true
}

// packets are what one packet holds (common practice, no source).
var packets = []struct {
	food       string
	grams, tsp *big.Rat // tsp nil: no measure is agreed on
}{

	{"yeast", big.NewRat(7, 1), big.NewRat(9, 4)},
	{"gelatin", big.NewRat(7, 1), nil},
	{"gelatine", big.NewRat(7, 1), nil},
}

// partOpened says how much part of a can, a packet or a piece of known weight is.
// Of what each holds the exact part is told, though t is rounded.
func partOpened(item grammar.Item, t grammar.Term, exact grammar.Quantity, metric bool) string {
	if t.Measure == nil || t.Measure.Kind != grammar.Container || t.Quantity.IsRange() {
		return ""
	}
	if t.Each != nil {
		all := t.Each.Quantity.Times(exact.Low)
		_, words, _ := KitchenAmount(grammar.Amount{Terms: []grammar.Term{{Quantity: all, Measure: t.Each.Measure}}}, metric, Nearest)
		return ", " + words + " in all"
	}
	for _, p := range packets {
		if slices.Contains(foodOf(item), p.food) {
			grams := kitchenOf(new(big.Rat).Mul(t.Quantity.Low, p.grams), "g")
			if p.tsp == nil {
				return ", about " + grams
			}
			return fmt.Sprintf(", about %s or %s", kitchenOf(new(big.Rat).Mul(t.Quantity.Low, p.tsp), "tsp"), grams)
		}
	}
	return ""
}

// kitchenOf writes n of a measure as a cook can measure it.
func kitchenOf(n *big.Rat, measure string) string {
	q := grammar.Quantity{Low: n, High: n}
	_, words, _ := KitchenAmount(grammar.Amount{Terms: []grammar.Term{{Quantity: q, Measure: measureNamed(measure)}}}, false, Nearest)
	return words
}

// foodOf are the words of an item's food alone, in the singular.
func foodOf(item grammar.Item) []string {
	return withoutPreparation(fooddata.Normalise(strings.Join(item.Words, " ")))
}

// eggSizes are grams without shell (SR28 01123), and what part of it the white
// and the yolk of a large one are (SR28 01124, 01125).
var eggSizes = map[string]int64{"small": 38, "medium": 44, "": 50, "large": 50, "extra large": 56, "jumbo": 63}

var eggParts = map[string]struct {
	share *big.Rat
	name  string
	beat  string
}{

	"egg":       {big.NewRat(1, 1), "egg", "beat"},
	"whole egg": {big.NewRat(1, 1), "egg", "beat"},
	"egg white": {big.NewRat(33, 50), "egg white", "stir"},
	"egg yolk":  {big.NewRat(17, 50), "egg yolk", "stir"},
}

// gramsPerTspOfEgg is for beaten egg, white and yolk alike: 243 g a cup (SR28
// 01123, 01124, 01125).
var gramsPerTspOfEgg = big.NewRat(243, 48)

// eggFractions are the parts of an egg that are measured out.
var eggFractions = []struct {
	part    *big.Rat
	words   string
	instead string // a whole part of an egg that comes to about as much
}{

	{big.NewRat(1, 4), "a quarter", ""},
	{big.NewRat(1, 3), "a third", "yolk"}, // 17 g of 50 g
	{big.NewRat(1, 2), "half", ""},
	{big.NewRat(2, 3), "two thirds", "white"}, // 33 g of 50 g
	{big.NewRat(3, 4), "three quarters", ""},
}

// eggPiece says how to come by a number of eggs that is not whole. It returns
// false if the item is no raw egg, or eggs of a range.
func eggPiece(item grammar.Item) (piece, bool) {
	t := item.Amount.Terms[0]
	part, isEgg := eggParts[strings.Join(foodOf(item), " ")]
	grams, sized := eggSizes[t.Size]
	if !isEgg || !sized || len(item.Amount.Terms) > 1 || t.Measure != nil || t.Each != nil || cookedEgg(item) {
		return piece{}, false
	}
	x := t.Quantity.Low
	nearest := toMultiple(x, wholeOne, Nearest)
	if err := errorOf(nearest, x); t.Quantity.IsRange() || -kitchenError <= err && err <= kitchenError {
		low, high := nearest, toMultiple(t.Quantity.High, wholeOne, Nearest)
		if low.Sign() == 0 || high.Sign() == 0 {
			return piece{}, false
		}
		t.Quantity = grammar.Quantity{Low: low, High: high}
		return piece{lead: termWords(t), many: high.Cmp(wholeOne) > 0, err: worseError(err, errorOf(high, item.Amount.Terms[0].Quantity.High))}, true
	}
	n := big.NewRat(wholeNumber(x), 1)
	best := eggFractions[0]
	for _, f := range eggFractions[1:] {
		if off := new(big.Rat).Sub(x, n); nearerTo(off, f.part, best.part) {
			best = f
		}
	}
	got := new(big.Rat).Add(n, best.part)
	p := piece{err: errorOf(got, x), many: n.Cmp(wholeOne) > 0}
	of := new(big.Rat).Mul(big.NewRat(grams, 1), part.share)
	of.Mul(of, best.part)
	about := fmt.Sprintf("%s (%s)", kitchenOf(new(big.Rat).Quo(of, gramsPerTspOfEgg), "tsp"), kitchenOf(of, "g"))
	shown := t
	if slices.Contains(item.Prep, "separated") {
		shown.Quantity = grammar.Quantity{Low: got, High: got}
		p.lead, p.many = termWords(shown), got.Cmp(wholeOne) > 0
		p.tail = fmt.Sprintf(": of the last egg, %s of the white and of the yolk", best.words)
		return p, true
	}
	if n.Sign() == 0 {
		shown.Quantity = grammar.Exactly(1, 1)
		p.lead, p.tail = termWords(shown), fmt.Sprintf(": %s it and use %s, about %s", part.beat, best.words, about)
	} else {
		shown.Quantity = grammar.Quantity{Low: n, High: n}
		p.lead, p.tail = termWords(shown), fmt.Sprintf("; %s 1 more and use %s, about %s", part.beat, best.words, about)
	}
	if part.name == "egg" && best.instead != "" {
		p.tail += fmt.Sprintf(", or 1 %s", best.instead)
		if n.Sign() > 0 {
			p.tail += " more"
		}
	}
	return p, true
}

func cookedEgg(item grammar.Item) bool {
	return slices.ContainsFunc(append(slices.Clone(item.Words), item.Prep...), func(w string) bool {
		return strings.Contains(w, "boiled") || strings.Contains(w, "cooked") || w == "poached" || w == "fried" || w == "scrambled"
	})
}

// nearerTo reports whether a is nearer to x than b is.
func nearerTo(x, a, b *big.Rat) bool {
	da, db := new(big.Rat).Sub(x, a), new(big.Rat).Sub(x, b)
	return da.Abs(da).Cmp(db.Abs(db)) < 0
}

var (
	partOf    = map[grammar.Part]string{grammar.Juice: "juice of ", grammar.Zest: "zest of "}
	partWords = wordSet("juice juiced zest zested rind peel and of grated finely only for")
)

// scaleNote is something that does not follow the factor in a straight line.
// The rules are common practice, no source, but where they name one.
type scaleNote struct {
	holds  func(v scaleView) bool // whether the recipe holds such a thing
	twice  bool                   // said at twice and half already, else only beyond them
	larger string                 // said of a larger amount; may be empty
	less   string                 // said of a smaller one; may be empty
}

// scaleView is what the notes look at.
type scaleView struct {
	dish   Dish
	method string // in lower case
	items  []grammar.Item
}

var (
	scaleTime   = regexp.MustCompile(`\d\s*(-|–|to)?\s*\d*\s*(minutes?|mins?\b|hours?|hrs?\b)`)
	scaleBake   = regexp.MustCompile(`\b(baked?|baking|oven|roast(ed|ing)?)\b`)
	scaleSimmer = regexp.MustCompile(`\b(simmer(ed|ing)?|boil(ed|ing)?|stew(ed|ing)?|braise[ds]?|braising|reduce[ds]?|thicken(s|ed)?)\b`)
)

func (v scaleView) baked() bool {
	return slices.Contains(baked, v.dish) || v.dish == Casserole || scaleBake.MatchString(v.method) && v.dish != Soup
}

func (v scaleView) held(names ...string) bool {
	for _, name := range names {
		for _, item := range v.items {
			if containsAll(itemWords(item), strings.Fields(name)) {
				return true
			}
		}
	}
	return false
}

func (v scaleView) salted() bool {
	for _, item := range v.items {
		words := itemWords(item)
		if slices.Contains(words, "salt") && !containsAny(words, []string{"unsalted", "no", "free", "low"}) {
			return true
		}
	}
	return false
}

func (v scaleView) spiced() bool {
	return v.held("cayenne", "chili powder", "chili flake", "red pepper flake", "chilli", "black pepper", "hot sauce", "cumin", "curry powder", "clove ground",
		"ground clove", "nutmeg", "paprika", "cinnamon", "oregano dried", "dried oregano", "thyme dried", "ground ginger", "turmeric", "allspice", "cardamom")
}

// kept reports whether salt does more in the dish than season it.
func (v scaleView) kept() bool { return v.dish == YeastDough || slices.Contains(settled, v.dish) }

var scaleNotes = []scaleNote{
	{func(v scaleView) bool { return scaleTime.MatchString(v.method) || v.baked() }, true,
		"time does not follow: a fuller pot or a deeper pan takes longer, more pans side by side hardly; go by colour and by the middle, not by the clock",
		"time does not follow: a smaller amount is done sooner; look early"},
	{func(v scaleView) bool { return v.baked() && v.dish != Cookie }, true,
		"pan: at the same depth it takes about %s times the area, so more pans or a larger one; name both pans to have them compared",
		"pan: at the same depth it takes about %s of the area; name both pans to have them compared"},
	{func(v scaleView) bool { return v.held("baking powder", "baking soda", "bicarbonate") }, false,
		"baking powder and soda: as scaled for more pans of the same depth; one much larger or deeper pan needs a little less",
		"baking powder and soda: measure them level; in so small a batter a little too much shows"},
	{func(v scaleView) bool { return v.dish == YeastDough }, false,
		"yeast: a large dough keeps its warmth and rises faster; go by the dough, not by the clock",
		"yeast: a small dough cools and rises more slowly; go by the dough, not by the clock"},
	{func(v scaleView) bool { return v.kept() && v.salted() }, false,
		"salt stays as scaled: here it does more than season; weigh it if you can",
		"salt stays as scaled: here it does more than season; weigh it if you can"},
	{func(v scaleView) bool {
		return !v.kept() && !slices.Contains(baked, v.dish) && (v.salted() || v.spiced())
	}, false,
		"salt and spice: begin with about three quarters of the scaled amount and taste once it is cooked; the figures count all of it",
		"salt and spice: taste once it is cooked; a small pot may want a little more than scaled, which adds to the figures"},
	{func(v scaleView) bool {
		return scaleSimmer.MatchString(v.method) && !slices.Contains(baked, v.dish) && !slices.Contains(settled, v.dish) &&
			v.held("water", "broth", "stock", "wine", "milk", "cream", "tomato", "juice")
	}, false,
		"liquid: a large pot loses a smaller share of it in the same time; hold some back, or cook it down longer",
		"liquid: a small pot loses a larger share of it and boils dry sooner; have a little more at hand"},
	{func(v scaleView) bool { return v.dish == Preserve || v.dish == Candy }, false,
		"jam and candy: make single batches one after the other; a large one may not set, and a tested canning recipe is not changed", ""},
}

// warn notes what does not follow the factor.
func (s *Scaled) warn(r *grammar.Recipe, factor *big.Rat) {
	if factor.Cmp(wholeOne) == 0 {
		return
	}
	if r.Servings.Low == nil {
		s.note("the recipe does not say how many it serves, so only the amounts are scaled")
	}
	v := scaleView{dish: DishOf(r), method: strings.ToLower(strings.Join(r.Method, "\n"))}
	for _, l := range r.Lines {
		v.items = append(v.items, l.Items...)
	}
	twofold, half := big.NewRat(2, 1), big.NewRat(1, 2)
	for _, n := range scaleNotes {
		text := ""
		switch up, down := factor.Cmp(twofold), factor.Cmp(half); {
		case up > 0, up == 0 && n.twice:
			text = n.larger
		case down < 0, down == 0 && n.twice:
			text = n.less
		}
		if text == "" || !n.holds(v) {
			continue
		}
		if strings.Contains(text, "%s") {
			text = fmt.Sprintf(text, show(ratio(factor)))
		}
		s.Notes = append(s.Notes, text)
	}
	s.remarks(r)
}

// amountInRemark finds an amount inside words that are kept as written.
var amountInRemark = regexp.MustCompile(`(?i)(\d|½|¼|¾|⅓|⅔|⅛)[\d/ .½¼¾⅓⅔⅛-]*-?\s?(cups?|tsps?|teaspoons?|tbsps?|tablespoons?|oz|ounces?|lbs?|pounds?|g|grams?|kg|ml|l|litres?|liters?|pints?|quarts?)\b`)

// remarks notes amounts that are kept as written: those in directions, and in
// what stands beside a food.
func (s *Scaled) remarks(r *grammar.Recipe) {
	for _, l := range s.Recipe.Lines {
		for _, item := range l.Items {
			for _, said := range append(slices.Clone(item.Aside), item.More, strings.Join(item.Prep, " ")) {
				if amountInRemark.MatchString(said) && !strings.Contains(said, "each") && (item.Amount == nil || item.Amount.Terms[0].Measure == nil || item.Amount.Terms[0].Measure.Kind != grammar.Length) {
					s.note("kept as written, not scaled: %q", said)
				}
			}
		}
	}
	if slices.ContainsFunc(r.Method, amountInRemark.MatchString) {
		s.note("amounts named in the directions are kept as written, not scaled")
	}
}
