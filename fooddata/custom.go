package fooddata

import (
	"cmp"
	"fmt"
	"iter"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"pottle/fooddata/internal/layout"
)

// CustomFood is a food that a team adds, with the figures that its label or its
// recipe declares for one serving.
type CustomFood struct {
	Name         string
	Others       []string // other names
	ServingGrams float64  // of one serving; thousandths of a gram count
	// ServingName is what a serving is called: "bar", "2 cookies", "1/2 cup";
	// empty for no more than "serving".
	ServingName string
	// PerServing holds the declared figures, in the unit of each nutrient. A
	// nutrient that is missing has no value. Carbohydrate is total carbohydrate,
	// fibre and sugar alcohols in it, as United States labels have it.
	PerServing map[Nutrient]float64
}

// customGroup is the food group of every food that a team adds.
const customGroup = "Team foods"

// Custom foods are numbered from firstCustom on, in the order in which NewTable
// is given them. USDA numbers have five digits and those of FoodData Central
// seven, so none can clash. The number tells where a food is from; it may
// change when the team's list does, so nothing should keep it.
const firstCustom = 4_000_000_001

// energyFromParts is a bit of layout.Food.Flags: the energy was not declared.
const energyFromParts = 1 << 7

// Team reports whether f is a food that a team added.
func (f Food) Team() bool { return f.record().Number >= firstCustom }

// Source says where the figures of f are from: "USDA 01001", or "team" for a
// food that a team added.
func (f Food) Source() string {
	if f.Team() {
		return "team"
	}
	return "USDA " + f.Number()
}

// EnergyFromParts reports whether the energy of f was not declared and is worked
// out from its protein, fat, carbohydrate and alcohol.
func (f Food) EnergyFromParts() bool { return f.record().Flags&energyFromParts != 0 }

// Entries returns all names of the table and what each stands for, in no order
// that means anything.
func (t *Table) Entries() iter.Seq[Entry] {
	return func(yield func(Entry) bool) {
		for i := range t.file.NumNames() {
			if !yield(t.entry(t.file.Name(i))) {
				return
			}
		}
	}
}

// NewTable returns a table of a team's own foods; release says whose they are.
// It returns an error for a name that cannot be used or that two foods claim,
// and for a serving or a figure that is no amount. What is only unlikely is for
// [CustomFood.Check].
//
// The foods are of the group "Team foods" and of no stated state. They have no
// refuse, no fallback density and no known allergens: that none is listed says
// nothing. Their portions are "serving", what the serving is called, and "each":
// of a serving that is called by the last word of the food's name, as the bar of
// an oat bar is, one of those; of one that is called nothing, a serving. A missing energy is worked out where [CustomFood.Energy] can.
//
// Figures are kept per 100 g with six decimals, so that the figure of a 100 g
// serving comes back within 0.0000005 of the declared one, that of another
// serving in proportion. A nutrient of which some food of the table has more
// than 4,294 units in 100 g has fewer decimals (with salt, sodium in mg has
// five), but at least three. Grams of a serving have three.
func NewTable(release string, foods []CustomFood) (*Table, error) {
	b := customTable{Writer: layout.Writer{Release: release, Groups: []string{customGroup}}}
	b.Text("") // 0, so that an empty text is the zero of its field
	claimed := make(map[string]int)
	for i, f := range foods {
		if err := f.valid(); err != nil {
			return nil, fmt.Errorf("team food %q: %w", f.Name, err)
		}
		b.names = append(b.names, nil)
		for _, name := range append([]string{f.Name}, f.Others...) {
			key := strings.Join(Normalise(name), " ")
			other, taken := claimed[key]
			switch {
			case taken && other == i:
				continue
			case taken:
				return nil, fmt.Errorf("team food %q: the name %q is that of %q too", f.Name, name, foods[other].Name)
			}
			claimed[key] = i
			b.names[i] = append(b.names[i], oneSpaced(name))
		}
	}
	if err := b.addPortions(foods); err != nil {
		return nil, err
	}
	b.addFoods(foods)
	if err := b.addColumns(foods); err != nil {
		return nil, err
	}
	b.addNames()
	b.addSearch()
	data, err := b.Bytes()
	if err != nil {
		return nil, fmt.Errorf("team foods: %w", err)
	}
	return decode(string(data))
}

// The most letters of a name, and the weights that a serving may have in grams.
const (
	maxCustomName  = 60
	minServing     = 0.001
	maxServing     = 100_000
	mostPer100     = 4_294_000 // of a nutrient, in its unit
	leastDecimals  = 3         // that mostPer100 leaves
	customDecimals = 6
)

func (f CustomFood) valid() error {
	for _, name := range append([]string{f.Name}, f.Others...) {
		if err := validCustomName(name); err != nil {
			return err
		}
	}
	if !(f.ServingGrams >= minServing && f.ServingGrams <= maxServing) {
		return fmt.Errorf("a serving weighs %v g", f.ServingGrams)
	}
	if f.ServingName != "" {
		if _, _, err := f.serving(); err != nil {
			return err
		}
	}
	for n := range Nutrient(NumNutrients) {
		v, declared := f.PerServing[n]
		switch {
		case !declared:
		case !(v >= 0): // or no number at all
			return fmt.Errorf("%s is %v %s", n, v, n.Unit())
		case f.per100(v) > mostPer100:
			return fmt.Errorf("%s is %v %s in %v g, more than any food has", n, v, n.Unit(), f.ServingGrams)
		}
	}
	for n := range f.PerServing {
		if int(n) >= NumNutrients {
			return fmt.Errorf("nutrient %d is not known", n)
		}
	}
	return nil
}

func validCustomName(name string) error {
	switch letters := utf8.RuneCountInString(name); {
	case !utf8.ValidString(name), strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) || strings.ContainsRune("*~;", r) }):
		return fmt.Errorf("the name %q has signs that a name cannot have", name)
	case letters > maxCustomName:
		return fmt.Errorf("the name %q has %d letters, at most %d", name, letters, maxCustomName)
	case !slices.ContainsFunc(Normalise(name), func(w string) bool { return strings.ContainsFunc(w, unicode.IsLetter) }):
		return fmt.Errorf("the name %q has no word", name)
	}
	return nil
}

func oneSpaced(s string) string { return strings.Join(strings.Fields(s), " ") }

// grams returns the serving as its portion keeps it.
func (f CustomFood) grams() float64 { return math.Round(f.ServingGrams*1000) / 1000 }

func (f CustomFood) per100(perServing float64) float64 { return perServing / f.grams() * 100 }

// Energy returns the energy of a serving in kcal: the declared one, else by the
// general factors, 4 kcal for a gram of protein and carbohydrate, 9 of fat and 7
// of alcohol, where protein, fat and carbohydrate are declared; fromParts tells.
// It has no value where they are not.
func (f CustomFood) Energy() (a Amount, fromParts bool) {
	if v, ok := f.PerServing[Energy]; ok {
		return Known(v), false
	}
	kcal, all := f.partsEnergy()
	if !all {
		return Amount{}, false
	}
	return Known(kcal), true
}

// partsEnergy returns the energy of the declared parts by the general factors,
// and whether protein, fat and carbohydrate are all declared.
func (f CustomFood) partsEnergy() (kcal float64, all bool) {
	all = true
	for _, p := range [...]struct {
		of   Nutrient
		kcal float64 // of a gram
	}{{Protein, 4}, {Fat, 9}, {Carbohydrate, 4}, {Alcohol, 7}} {
		v, ok := f.PerServing[p.of]
		kcal += v * p.kcal
		all = all && (ok || p.of == Alcohol)
	}
	return kcal, all
}

// volumes are the measures by volume that a serving may be called by, and what
// portions call them.
var volumes = map[string]string{
	"cup": "cup", "tbsp": "tbsp", "tablespoon": "tbsp", "tsp": "tsp", "teaspoon": "tsp", "fl oz": "fl oz", "fluid ounce": "fl oz",
	"pint": "pint", "quart": "quart", "gallon": "gallon", "ml": "ml", "millilitre": "ml", "milliliter": "ml", "l": "l", "litre": "l", "liter": "l",
}

// serving reads "bar", "2 cookies", "1/2 cup".
func (f CustomFood) serving() (amount float64, measure string, err error) {
	words := strings.Fields(strings.ToLower(f.ServingName))
	for len(words) > 0 {
		n, ok := number(words[0])
		if !ok {
			break
		}
		amount += n
		words = words[1:]
	}
	if len(words) == 0 || amount > 1000 || !strings.ContainsFunc(strings.Join(words, ""), unicode.IsLetter) {
		return 0, "", fmt.Errorf("the serving is called %q", f.ServingName)
	}
	if amount == 0 {
		amount = 1
	}
	if one := f.ServingGrams / amount; one < minServing || one > maxServing {
		return 0, "", fmt.Errorf("one of %q weighs %v g", f.ServingName, one)
	}
	words[len(words)-1] = Singular(words[len(words)-1])
	measure = strings.Join(words, " ")
	if err := validCustomName(measure); err != nil {
		return 0, "", err
	}
	return amount, cmp.Or(volumes[measure], measure), nil
}

// number reads "2", "1.5" and "1/2", all above zero.
func number(s string) (float64, bool) {
	top, bottom, fraction := strings.Cut(s, "/")
	n, err := strconv.ParseFloat(top, 64)
	if fraction && err == nil {
		var by float64
		by, err = strconv.ParseFloat(bottom, 64)
		n /= by
	}
	return n, err == nil && n >= 0.001 && n <= 1000
}

// weights need no portion: they are known for every food.
var weights = map[string]bool{"g": true, "gram": true, "mg": true, "kg": true, "oz": true, "ounce": true, "lb": true, "pound": true}

// portions returns the household measures of f.
func (f CustomFood) portions() []Portion {
	list := []Portion{{Amount: 1, Measure: "serving"}}
	amount, measure := 1.0, "serving"
	if f.ServingName != "" {
		amount, measure, _ = f.serving()
	}
	if weights[measure] || measure == "serving" { // what one is was not said
		return append(list, Portion{Amount: 1, Measure: "each"})
	}
	list = append(list, Portion{Amount: amount, Measure: measure})
	name, words := Normalise(f.Name), Normalise(measure)
	if volumes[measure] == "" && len(words) > 0 && words[len(words)-1] == name[len(name)-1] {
		list = append(list, Portion{Amount: amount, Measure: "each"})
	}
	return list
}

// customTable is a table of custom foods being made.
type customTable struct {
	layout.Writer
	names   [][]string // of each food, its display name first
	portion []int      // the first of each food
}

// addPortions goes first because a portion has 16 bits for each of its texts.
func (b *customTable) addPortions(foods []CustomFood) error {
	source := b.Text("as declared")
	for _, f := range foods {
		b.portion = append(b.portion, len(b.Portions))
		for _, p := range f.portions() {
			id := b.Text(p.Measure)
			if id > math.MaxUint16 {
				return fmt.Errorf("team foods: more than %d names of servings", math.MaxUint16)
			}
			amount, grams := p.Amount*1000, f.grams()*1000
			if amount != math.Round(amount) { // a third of a cup: the weight of one
				amount, grams = 1000, grams/p.Amount
			}
			b.Portions = append(b.Portions, layout.Portion{
				Amount: uint32(amount), Grams: uint32(math.Round(grams)), Measure: uint16(id), Source: uint16(source),
			})
		}
	}
	return nil
}

func (b *customTable) addFoods(foods []CustomFood) {
	for i, f := range foods {
		name := b.Text(b.names[i][0])
		r := layout.Food{Number: firstCustom + uint32(i), Name: name, Description: name, Portions: uint32(b.portion[i]), Flags: layout.Curated}
		basis := "not known"
		if _, ok := f.PerServing[AddedSugars]; ok {
			basis = "as declared"
		}
		r.AddedBasis = b.Text(basis)
		if _, fromParts := f.Energy(); fromParts {
			r.Flags |= energyFromParts
		}
		b.Foods = append(b.Foods, r)
	}
}

func (b *customTable) addColumns(foods []CustomFood) error {
	for n := range Nutrient(NumNutrients) {
		amounts := make([]Amount, len(foods))
		most := 0.0
		for i, f := range foods {
			v, ok := f.PerServing[n]
			if n == Energy {
				a, _ := f.Energy()
				v, ok = a.Value()
			}
			if ok {
				amounts[i] = Known(f.per100(v))
				most = max(most, f.per100(v))
			}
		}
		decimals := customDecimals
		for decimals > leastDecimals && most*powersOf10[decimals] >= layout.NoValue-1 {
			decimals--
		}
		if most > mostPer100 { // energy from parts that are each within bounds
			return fmt.Errorf("team foods: %s of %v %s in 100 g", n, most, n.Unit())
		}
		figures := make([]uint32, len(foods))
		for i, a := range amounts {
			figures[i] = layout.NoValue
			if v, ok := a.Value(); ok {
				figures[i] = uint32(math.Round(v * powersOf10[decimals]))
			}
		}
		b.Column(n.Tag(), decimals, figures)
	}
	return nil
}

func (b *customTable) addNames() {
	for i, names := range b.names {
		for _, name := range names {
			b.Names = append(b.Names, layout.Name{Hash: layout.HashWords(Normalise(name)), Text: b.Text(name), Food: uint16(i)})
		}
	}
	slices.SortStableFunc(b.Names, func(x, y layout.Name) int { return cmp.Compare(x.Hash, y.Hash) })
}

// addSearch adds a doc for each name, and the index of their words.
func (b *customTable) addSearch() {
	docs := make(map[string][]uint16) // by word
	var words [][]string              // of each doc
	for i, names := range b.names {
		for _, name := range names {
			own := slices.Compact(slices.Sorted(slices.Values(Normalise(name))))
			for _, w := range own {
				docs[w] = append(docs[w], uint16(len(b.Docs)))
			}
			words = append(words, own)
			b.Docs = append(b.Docs, layout.Doc{Food: uint16(i), Kind: layout.CuratedName})
		}
	}
	vocabulary := make([]string, 0, len(docs))
	for w := range docs {
		vocabulary = append(vocabulary, w)
	}
	slices.Sort(vocabulary)
	weight := make(map[string]uint32)
	for _, w := range vocabulary {
		weight[w] = uint32(math.Round(100 * math.Log(1+float64(len(b.Docs))/float64(len(docs[w])))))
		b.Words = append(b.Words, layout.Word{Text: b.Text(w), Postings: uint32(len(b.Postings)), Weight: weight[w]})
		b.Postings = append(b.Postings, docs[w]...)
	}
	for i := range b.Docs {
		for _, w := range words[i] {
			b.Docs[i].Weight += uint16(min(weight[w], math.MaxUint16-uint32(b.Docs[i].Weight)))
		}
	}
}

// How far apart figures may be before Check speaks of it.
const (
	apartKcal    = 20.0
	apartShare   = 0.20 // of the declared energy
	rounding     = 0.5  // grams that a label may round a part up by
	kcalOfFat    = 9.0
	kcalOfkJ     = 1 / 4.184
	sodiumOfSalt = 393.4 // mg in a gram
	sodiumOfDay  = 2300  // mg, the Daily Value
)

// sums are figures whose parts together are no more than the whole.
var sums = []struct {
	whole Nutrient
	parts []Nutrient
}{
	{Carbohydrate, []Nutrient{Sugars, Fibre, Starch}},
	{Sugars, []Nutrient{AddedSugars}},
	{Sugars, []Nutrient{Lactose}},
	{Fat, []Nutrient{SaturatedFat, TransFat, MonounsaturatedFat, PolyunsaturatedFat}},
}

// Check says, a sentence each, what of the declared figures does not agree, and
// what is worked out or stays open for want of the energy. It is for people to
// judge: a label may be right and rounded, or from a country that leaves fibre
// out of the carbohydrate. It returns none for figures that agree.
func (f CustomFood) Check() []string {
	said := f.checkEnergy()
	for _, s := range sums {
		whole, ok := f.PerServing[s.whole]
		if !ok {
			continue
		}
		said = append(said, f.checkSum(s.whole, whole, s.parts)...)
	}
	if _, told := f.PerServing[Sugars]; !told {
		if whole, ok := f.PerServing[Carbohydrate]; ok {
			said = append(said, f.checkSum(Carbohydrate, whole, []Nutrient{AddedSugars})...)
		}
	}
	return append(said, f.checkWeights()...)
}

// checkSum compares each part with the whole, then, if each fits, all together.
func (f CustomFood) checkSum(of Nutrient, whole float64, parts []Nutrient) []string {
	var said, names []string
	sum, allowed := 0.0, rounding
	for _, n := range parts {
		v := f.PerServing[n]
		if v <= 0 {
			continue
		}
		sum += v
		allowed += rounding
		names = append(names, short(n))
		if v <= whole {
			continue
		}
		s := fmt.Sprintf("%s of %s g is more than the %s of %s g", short(n), figure(v), short(of), figure(whole))
		if n == Fibre {
			s += "; if the label leaves fibre out of the carbohydrate, give the two together as carbohydrate"
		}
		said = append(said, sentence(s))
	}
	if len(said) == 0 && len(names) > 1 && sum > whole+allowed {
		said = append(said, sentence(fmt.Sprintf("%s come to %s g, more than the %s of %s g", andList(names), figure(sum), short(of), figure(whole))))
	}
	return said
}

// checkEnergy compares the energy with what its parts give. Fibre may count for
// nothing or as much as other carbohydrate.
func (f CustomFood) checkEnergy() []string {
	high, all := f.partsEnergy()
	kcal, declared := f.PerServing[Energy]
	switch {
	case !declared && all:
		return []string{sentence(fmt.Sprintf("energy is not given; %s kcal is worked out from the parts, 4 kcal a gram of protein and carbohydrate, 9 of fat and 7 of alcohol", figure(math.Round(high))))}
	case !declared:
		return []string{"Energy is not given, and cannot be worked out without protein, fat and carbohydrate."}
	}
	low := high - 4*min(f.PerServing[Fibre], f.PerServing[Carbohydrate])
	within := max(apartKcal, apartShare*kcal)
	gives := figure(math.Round(high))
	if math.Round(low) < math.Round(high) {
		gives = fmt.Sprintf("%.0f to %.0f", low, high)
	}
	var said []string
	switch {
	case kcal < low-within && all:
		said = append(said, fmt.Sprintf("energy of %s kcal is less than the %s kcal that the parts give; sugar alcohols (polyols) in the carbohydrate can be why, else check", figure(kcal), gives))
	case kcal < low-within:
		said = append(said, fmt.Sprintf("energy of %s kcal is less than the %s kcal that the parts given so far hold", figure(kcal), gives))
	case kcal > high+within && all && math.Abs(kcal*kcalOfkJ-high) <= max(apartKcal, apartShare*high):
		said = append(said, fmt.Sprintf("energy of %s kcal is more than the %s kcal that the parts give; it may be in kilojoules: %s kJ is %.0f kcal", figure(kcal), gives, figure(kcal), kcal*kcalOfkJ))
	case kcal > high+within && all:
		s := fmt.Sprintf("energy of %s kcal is more than the %s kcal that the parts give", figure(kcal), gives)
		if _, ok := f.PerServing[Alcohol]; !ok {
			s += "; alcohol, if it has any, is not given"
		}
		said = append(said, s)
	}
	if f.ServingGrams > 0 && kcal > kcalOfFat*f.ServingGrams+apartKcal {
		said = append(said, fmt.Sprintf("energy of %s kcal is more than %s g of pure fat has", figure(kcal), figure(f.ServingGrams)))
	}
	for i := range said {
		said[i] = sentence(said[i])
	}
	return said
}

// checkWeights compares figures with what the serving weighs.
func (f CustomFood) checkWeights() []string {
	if f.ServingGrams <= 0 {
		return []string{"What a serving weighs is not given."}
	}
	var said []string
	serving := figure(f.ServingGrams)
	sum, allowed, names := 0.0, 0.0, []string{}
	for _, n := range []Nutrient{Protein, Fat, Carbohydrate, Water, Ash, Alcohol} {
		if v := f.PerServing[n]; v > 0 {
			sum += v
			allowed += rounding
			names = append(names, short(n))
		}
	}
	if sum > f.ServingGrams+allowed {
		weigh := "weigh"
		if len(names) == 1 {
			weigh = "weighs"
		}
		said = append(said, sentence(fmt.Sprintf("%s %s %s g, more than the serving of %s g", andList(names), weigh, figure(sum), serving)))
	}
	for n := range Nutrient(NumNutrients) {
		v, perGram := f.PerServing[n], map[string]float64{"mg": 1e3, "µg": 1e6}[n.Unit()]
		switch {
		case n == Sodium && v > sodiumOfSalt*f.ServingGrams:
			said = append(said, fmt.Sprintf("Sodium of %s mg is more than %s g of salt has.", figure(v), serving))
		case n == Sodium && v > sodiumOfDay:
			said = append(said, fmt.Sprintf("Sodium of %s mg is more in one serving than the %d mg of a day: check that it is milligrams and one serving.", figure(v), sodiumOfDay))
		case perGram > 0 && v > perGram*f.ServingGrams:
			said = append(said, sentence(fmt.Sprintf("%s of %s %s weighs more than the serving of %s g", short(n), figure(v), n.Unit(), serving)))
		}
	}
	return said
}

// short names a nutrient without "total".
func short(n Nutrient) string { return strings.TrimPrefix(n.Name(), "total ") }

// andList writes "protein, fat and carbohydrate".
func andList(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// figure writes a number without needless decimals.
func figure(v float64) string { return strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64) }

func sentence(s string) string { return strings.ToUpper(s[:1]) + s[1:] + "." }
