package bot

import (
	"fmt"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
)

// saltOfSodium is how much salt a European label declares for sodium
// (Regulation (EU) 1169/2011, Annex I).
const (
	saltOfSodium = 2.5
	saltRule     = "as a European label counts it, sodium × 2.5, Regulation (EU) 1169/2011, Annex I"
)

const (
	kJPerKcal = 4.184 // thermochemical
	iuPerµg   = 40    // of vitamin D
)

// askedFigure is what a question asks for: a nutrient, or several that people
// call by one name.
type askedFigure struct {
	nutrients []fooddata.Nutrient
	name      string // of several, or of salt
	salt      bool   // sodium, told as salt
	unit      string // "kJ", "IU", "mg", "g", "µg"; empty for the usual one
	note      string // what is said of it beside the figures
	read      string // how a misspelt name was read
}

// together are figures that people ask for by one name and that the table has in
// parts.
var together = map[string]askedFigure{
	"omega 3": {nutrients: []fooddata.Nutrient{fooddata.EPA, fooddata.DHA, fooddata.ALA, fooddata.LinolenicAcid}, name: "omega-3",
		note: "The table has ALA, EPA and DHA one by one, and no figure for a food that was not tested"},
	"omega 6": {nutrients: []fooddata.Nutrient{fooddata.LinoleicAcid}, name: "omega-6", note: "Linoleic acid is most of the omega-6 of foods"},
	"net carb": {nutrients: []fooddata.Nutrient{fooddata.Carbohydrate, fooddata.Fibre}, name: "net carbs",
		note: "Labels define no net carbs, so both figures are given"},
}

// calledTogether are the names of together, in normal form.
var calledTogether = map[string]string{
	"omega 3": "omega 3", "omega 3 fat": "omega 3", "omega 3 fatty acid": "omega 3", "n 3": "omega 3", "n 3 fatty acid": "omega 3", "n3": "omega 3",
	"omega 6": "omega 6", "omega 6 fat": "omega 6", "omega 6 fatty acid": "omega 6", "n 6": "omega 6",
	"net carb": "net carb", "net carbohydrate": "net carb", "available carbohydrate": "net carb", "available carb": "net carb", "digestible carb": "net carb", "digestible carbohydrate": "net carb",
}

// figureAsked finds the figure that words ask for. A name with a typing error is
// taken for the nutrient that it is nearest to.
func figureAsked(words, unit string) (askedFigure, bool) {
	words = strings.TrimSpace(words)
	switch said := strings.Join(fooddata.Normalise(words), " "); {
	case said == "salt":
		return askedFigure{nutrients: []fooddata.Nutrient{fooddata.Sodium}, name: "salt", salt: true}, true
	case said == "kj" || said == "kilojoule" || said == "energy kj":
		return askedFigure{nutrients: []fooddata.Nutrient{fooddata.Energy}, unit: "kJ"}, true
	case calledTogether[said] != "":
		return together[calledTogether[said]], true
	}
	n, ok := fooddata.NutrientNamed(words)
	read := ""
	if at := strings.LastIndex(words, " "); !ok && at > 0 && unit == "" { // "vitamin D IU"
		if last := strings.ToLower(words[at+1:]); last == "iu" || last == "kj" || last == "kcal" || last == "mg" || last == "mcg" || last == "µg" || last == "g" {
			return figureAsked(strings.TrimSuffix(words[:at], " in"), last)
		}
	}
	if !ok {
		if n, ok = fooddata.NutrientNear(words); !ok {
			return askedFigure{}, false
		}
		read = fmt.Sprintf("%q is read as %s.", words, n.Name())
	}
	f := askedFigure{nutrients: []fooddata.Nutrient{n}, read: read}
	switch unit {
	case "kilojoules", "kj":
		unit = "kJ"
	case "mcg":
		unit = "µg"
	}
	switch {
	case unit == "kJ" && n == fooddata.Energy, unit == "IU" && n == fooddata.VitaminD, strings.EqualFold(unit, "iu") && n == fooddata.VitaminD:
		f.unit = strings.ReplaceAll(unit, "iu", "IU")
	case unit != n.Unit() && inMg[unit] > 0 && inMg[n.Unit()] > 0:
		f.unit = unit
	}
	return f, true
}

// figureLast divides a text that ends in a figure which only has a name of its own
// here: "3 oz salmon omega-3", "1 banana in kJ".
func figureLast(text string) (f askedFigure, food string, ok bool) {
	words := strings.Fields(strings.TrimRight(text, " ?."))
	for k := min(3, len(words)-1); k > 0; k-- {
		last, food := strings.Join(words[len(words)-k:], " "), strings.Join(words[:len(words)-k], " ")
		food = strings.TrimSuffix(food, " in")
		switch said := strings.Join(fooddata.Normalise(last), " "); {
		case calledTogether[said] != "":
			return together[calledTogether[said]], food, true
		case said == "kj" || said == "kilojoule":
			return askedFigure{nutrients: []fooddata.Nutrient{fooddata.Energy}, unit: "kJ"}, food, true
		}
	}
	return askedFigure{}, "", false
}

// inMg is how many milligrams a unit of weight is.
var inMg = map[string]float64{"g": 1000, "mg": 1, "µg": 0.001}

// nutrientNamed is the nutrient that words name, typing errors read over.
func nutrientNamed(words string) (fooddata.Nutrient, bool) {
	n, ok := fooddata.NutrientNamed(words)
	if !ok {
		n, ok = fooddata.NutrientNear(words)
	}
	return n, ok
}

// plain reports a single nutrient in its own unit.
func (f askedFigure) plain() bool {
	return len(f.nutrients) == 1 && !f.salt && f.unit == "" && f.name == ""
}

// title is what the answer is called.
func (f askedFigure) title() string {
	if f.name != "" {
		return sentence(f.name)
	}
	return sentence(f.nutrients[0].Name())
}

// figures writes what have tells of each nutrient: "EPA 0.6 g, DHA 0.9 g, ALA no
// figure".
func (f askedFigure) figures(have func(fooddata.Nutrient) (engine.Range, bool), least func(fooddata.Nutrient) string) string {
	if f.salt {
		r, ok := have(fooddata.Sodium)
		if !ok {
			return "no figure for sodium"
		}
		return fmt.Sprintf("%s%s salt (%s); sodium %s%s", least(fooddata.Sodium), rangeText(r, func(v float64) string { return grams1(v * saltOfSodium / 1000) }), saltRule, least(fooddata.Sodium), amountWithDV(r, fooddata.Sodium))
	}
	var parts []string
	_, ala := have(fooddata.ALA)
	_, either := have(fooddata.LinolenicAcid)
	for _, n := range f.nutrients {
		r, ok := have(n)
		switch {
		case f.name == "omega-3" && (n == fooddata.LinolenicAcid && (ala || !either) || n == fooddata.ALA && !ala && either):
		case n == fooddata.LinolenicAcid && f.name == "omega-3": // not told apart, but nearly all of it
			parts = append(parts, "18:3 (nearly all of it ALA) "+least(n)+rangeText(r, func(v float64) string { return smallValue(v, n) }))
		case !ok && len(f.nutrients) == 1 && f.name == "":
			parts = append(parts, "no figure")
		case !ok:
			parts = append(parts, n.Name()+" no figure")
		case len(f.nutrients) == 1 && f.name == "":
			parts = append(parts, least(n)+f.inUnit(r, n))
		default:
			parts = append(parts, n.Name()+" "+least(n)+rangeText(r, func(v float64) string { return smallValue(v, n) }))
		}
	}
	if f.name == "omega-3" {
		epa, known := have(fooddata.EPA)
		dha, also := have(fooddata.DHA)
		if known && also {
			parts = append(parts, "EPA and DHA together "+smallValue(epa.Low+dha.Low, fooddata.DHA))
		}
	}
	return strings.Join(parts, ", ")
}

// partsOf are the nutrients to compare two foods by.
func (f askedFigure) partsOf(left, right *engine.Line) []fooddata.Nutrient {
	if f.name != "omega-3" {
		return f.nutrients
	}
	_, one := left.Has(fooddata.ALA)
	_, other := right.Has(fooddata.ALA)
	if one && other {
		return []fooddata.Nutrient{fooddata.EPA, fooddata.DHA, fooddata.ALA}
	}
	return []fooddata.Nutrient{fooddata.EPA, fooddata.DHA, fooddata.LinolenicAcid}
}

// inUnit writes an amount in the unit that was asked for, and in the usual one.
func (f askedFigure) inUnit(r engine.Range, n fooddata.Nutrient) string {
	usual := func(v float64) string { return value(v, n) }
	switch f.unit {
	case "":
		return amountWithDV(r, n)
	case "kJ":
		return fmt.Sprintf("%s (%s)", rangeText(r, func(v float64) string { return engine.WithCommas(fmt.Sprintf("%.0f", v*kJPerKcal)) + " kJ" }), rangeText(r, usual))
	case "IU":
		return fmt.Sprintf("%s (%s, at 40 IU a microgram)", rangeText(r, func(v float64) string { return engine.WithCommas(fmt.Sprintf("%.0f", v*iuPerµg)) + " IU" }), rangeText(r, usual))
	}
	factor := inMg[n.Unit()] / inMg[f.unit]
	return fmt.Sprintf("%s (%s)", rangeText(r, func(v float64) string { return engine.WithCommas(fmt.Sprintf("%.4g", v*factor)) + " " + f.unit }), amountWithDV(r, n))
}

func rangeText(r engine.Range, write func(float64) string) string {
	if r.High > r.Low*1.0001 {
		return write(r.Low) + " to " + write(r.High)
	}
	return write(r.Low)
}

// grams1 writes grams with one decimal, or two below one.
func grams1(v float64) string {
	if v < 0.95 {
		return fmt.Sprintf("%.2f g", v)
	}
	return engine.WithCommas(fmt.Sprintf("%.1f", v)) + " g"
}

// smallValue writes a part of a gram in milligrams: fatty acids are watched in
// those.
func smallValue(v float64, n fooddata.Nutrient) string {
	if n.Unit() == "g" && v < 0.95 && v > 0 && n != fooddata.Fibre && n != fooddata.Carbohydrate {
		return fmt.Sprintf("%.0f mg", v*1000)
	}
	return value(v, n)
}

// after are the sentences that follow the figures.
func (f askedFigure) after() string {
	out := ""
	if f.note != "" {
		out += "\n" + f.note + "."
	}
	if f.read != "" {
		out += "\n" + f.read
	}
	return out
}
