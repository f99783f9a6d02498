package engine

import (
	"regexp"
	"slices"
	"strings"

	"pottle/fooddata"
)

// higherRisk are the people for whom food is not served raw.
const higherRisk = "pregnancy, under 5, 65 and over or weak immunity"

// rawEgg tells of egg that stays raw or lightly cooked: by the name of the
// dish, or because no heat follows the egg in the directions.
func (d *dishView) rawEgg() (Caution, bool) {
	var eggs []dishFood
	for _, in := range d.foods {
		if in.isRawEgg() {
			eggs = append(eggs, in)
		}
	}
	if len(eggs) == 0 || eggHeated.MatchString(d.text) {
		return Caution{}, false
	}
	switch {
	case d.titled("title raw egg always"), d.eggSteps("light egg"), slices.ContainsFunc(eggs, func(in dishFood) bool { return in.says("light egg") == doesContain }):
	case len(d.steps) == 0:
		if !d.titled("title raw egg") {
			return Caution{}, false
		}
	case d.eggsMeetHeat():
		return Caution{}, false
	}
	text := cautionNames(eggs) + " may stay raw or lightly cooked; use pasteurised eggs for " + higherRisk
	return Caution{"raw egg", text, fromRawEgg, cautionLines(eggs)}, true
}

// eggHeated finds a temperature in directions at which egg is done.
var eggHeated = regexp.MustCompile(`(?i)\b1[67]\d\s*(°|º|degrees)?\s*F\b|\b7[1-9]\s*(°|º|degrees)?\s*C\b`)

// isRawEgg reports whether the ingredient is egg that comes raw.
func (in dishFood) isRawEgg() bool {
	if in.says("light egg") == doesContain && in.says("raw egg") == doesContain {
		return true
	}
	if in.says("pasteurised") == doesContain {
		return false
	}
	if in.sure() {
		return in.food.State() == fooddata.Raw && strings.HasPrefix(in.food.Description(), "Egg, ")
	}
	return in.says("raw egg") == doesContain
}

// eggSteps reports whether a sentence that speaks of egg has words of subject.
func (d *dishView) eggSteps(subject string) bool {
	return slices.ContainsFunc(d.steps, func(step []string) bool {
		return cautionRules("egg word").in(step) == doesContain && cautionRules(subject).in(step) == doesContain
	})
}

// eggsMeetHeat reports whether the directions heat the egg: in the sentence
// that first speaks of it or in a later one, where melting and dissolving
// something else is no heat for the egg.
func (d *dishView) eggsMeetHeat() bool {
	first := slices.IndexFunc(d.steps, func(step []string) bool { return cautionRules("egg word").in(step) == doesContain })
	for _, step := range d.steps[max(first, 0):] {
		ofEgg := cautionRules("egg word").in(step) == doesContain
		if cautionRules("heat").in(step) == doesContain && (ofEgg || cautionRules("melt").in(step) != doesContain) {
			return true
		}
	}
	return false
}

// rawFish tells of fish, shellfish or meat that is eaten raw.
func (d *dishView) rawFish() (Caution, bool) {
	if !d.titled("title raw fish") {
		return Caution{}, false
	}
	var raw []dishFood
	for _, in := range d.foods {
		switch in.written().flesh() { // tuna in sushi is not canned, as bare tuna is
		case fleshFish, fleshShellfish, fleshCut, fleshGround, fleshGame:
			raw = append(raw, in)
		}
	}
	raw = slices.DeleteFunc(raw, d.heated)
	if len(raw) == 0 {
		return Caution{}, false
	}
	return Caution{"raw fish or meat", cautionNames(raw) + ": eaten raw, and acid does not cook it; not for " + higherRisk, fromRawMeat, cautionLines(raw)}, true
}

// written returns the ingredient as its words alone tell it.
func (in dishFood) written() dishFood {
	in.food, in.display = fooddata.Food{}, nil
	return in
}

// heated reports whether a sentence of the directions heats the ingredient.
func (d *dishView) heated(in dishFood) bool {
	return slices.ContainsFunc(d.steps, func(step []string) bool {
		return cautionRules("heat").in(step) == doesContain && slices.ContainsFunc(step, func(w string) bool {
			return len(w) > 2 && slices.Contains(in.words, w) && cautionRules("raw fish").in([]string{w})+cautionRules("meat").in([]string{w}) > 0
		})
	})
}

// rawFlour tells of dough that is eaten unbaked.
func (d *dishView) rawFlour() (Caution, bool) {
	if !d.titled("title raw dough") || d.told("heat") {
		return Caution{}, false
	}
	var flour []dishFood
	for _, in := range d.foods {
		if in.says("flour") == doesContain && in.says("ready cooked") != doesContain {
			flour = append(flour, in)
		}
	}
	if len(flour) == 0 {
		return Caution{}, false
	}
	return Caution{"raw flour", cautionNames(flour) + ": raw flour can carry germs; bake the dough before it is tasted", fromRawFlour, cautionLines(flour)}, true
}

// flesh is a kind of raw meat or fish that has a temperature of its own.
type flesh uint8

const (
	noFlesh flesh = iota
	fleshPoultry
	fleshGround
	fleshCut
	fleshGame
	fleshHam
	fleshFish
	fleshShellfish

	numFlesh = int(iota)
)

// temperatureFor holds what to say of each kind. Sources: safety.md, where the
// rows for steaks, ground meat and poultry were read and the others are from
// memory.
var temperatureFor = [numFlesh]struct{ text, source string }{
	fleshPoultry:   {"cook poultry to 165 °F (74 °C)", fromTemperature},
	fleshGround:    {"cook ground meat to 160 °F (71 °C)", fromTemperature},
	fleshCut:       {"cook to 145 °F (63 °C), then rest 3 minutes", fromTemperature},
	fleshGame:      {"cook game and organ meats to 160 °F (71 °C)", fromChart},
	fleshHam:       {"reheat cooked ham to 140 °F (60 °C) if packed in an inspected plant, else to 165 °F (74 °C)", fromChart},
	fleshFish:      {"cook to 145 °F (63 °C), or until opaque and flaking", fromChart},
	fleshShellfish: {"cook until the shells open", fromChart},
}

// Parts of descriptions in SR28 that decide a kind.
var (
	groundPattern = regexp.MustCompile(`(?i)\bground\b|meatball|patty`)
	organPattern  = regexp.MustCompile(`(?i)variety meats|game meat|\b(liver|heart|kidneys?|tongue|tripe)\b`)
	curedPattern  = regexp.MustCompile(`(?i)\b(bacon|cured|salt pork|backfat|suet|leaf fat|separable fat|pickled|smoked|lox|kippered|dried|imitation|surimi|caviar|fish sticks|crab cakes|gefiltefish|canned|cooked|rotisserie|prosciutto|skin only)\b`)
	openPattern   = regexp.MustCompile(`(?i)\b(clam|mussel|oyster)\b`)
)

// flesh returns the kind of raw meat or fish that the ingredient is.
func (in dishFood) flesh() flesh {
	if in.food.IsZero() {
		return in.fleshByWords()
	}
	description := in.food.Description()
	raw := in.food.State() != fooddata.Cooked && in.food.State() != fooddata.Canned && in.food.State() != fooddata.Dried
	switch in.food.Group() {
	case "Poultry Products":
		if raw && !curedPattern.MatchString(description) {
			return fleshPoultry
		}
	case "Sausages and Luncheon Meats":
		return in.sausage(raw)
	case "Beef Products", "Pork Products", "Lamb, Veal, and Game Products":
		switch {
		case strings.HasPrefix(description, "Pork, cured, ham"):
			return fleshHam
		case !raw || curedPattern.MatchString(description) && !strings.Contains(description, "corned beef, brisket, raw"):
			return noFlesh
		case groundPattern.MatchString(description):
			return fleshGround
		case organPattern.MatchString(description) && !strings.Contains(description, "bison"):
			return fleshGame
		}
		return fleshCut
	case "Finfish and Shellfish Products":
		switch {
		case !raw || curedPattern.MatchString(description):
			return noFlesh
		case openPattern.MatchString(description):
			return fleshShellfish
		}
		return fleshFish
	}
	return noFlesh
}

// sausage returns the kind of a sausage that comes raw. SR28 has some kinds,
// such as bratwurst, only as cooked.
func (in dishFood) sausage(raw bool) flesh {
	if !raw || in.says("ground meat") != doesContain && in.food.State() != fooddata.Raw || strings.Contains(in.food.Description(), "acon") {
		return noFlesh
	}
	if strings.Contains(strings.ToLower(in.food.Description()), "turkey") {
		return fleshPoultry
	}
	return fleshGround
}

// fleshByWords is for foods that the table does not have.
func (in dishFood) fleshByWords() flesh {
	if in.says("ready cooked") == doesContain {
		return noFlesh
	}
	for _, c := range []struct {
		subject string
		kind    flesh
	}{{"poultry", fleshPoultry}, {"ground meat", fleshGround}, {"meat", fleshCut}, {"live shellfish", fleshShellfish}, {"raw fish", fleshFish}} {
		if in.says(c.subject) == doesContain {
			return c.kind
		}
	}
	return noFlesh
}

// temperatures returns the least internal temperatures for what the recipe
// cooks, a caution for each kind.
func (d *dishView) temperatures() []Caution {
	var kinds [numFlesh][]dishFood
	for _, in := range d.foods {
		if f := in.flesh(); f != noFlesh {
			kinds[f] = append(kinds[f], in)
		}
	}
	_, eatenRaw := d.rawFish()
	var list []Caution
	for f, ins := range kinds {
		if len(ins) == 0 || eatenRaw && f != int(fleshPoultry) || f == int(fleshHam) && len(d.steps) > 0 && !d.told("heat") {
			continue
		}
		t := temperatureFor[f]
		list = append(list, Caution{"temperature", cautionNames(ins) + ": " + t.text, t.source, cautionLines(ins)})
	}
	eggs := slices.DeleteFunc(slices.Clone(d.foods), func(in dishFood) bool { return !in.isRawEgg() })
	if len(eggs) > 0 && cautionRules("title egg dish").in(d.head) == doesContain {
		list = append(list, Caution{"temperature", "egg dish: cook to 160 °F (71 °C), yolk and white firm", fromChart, cautionLines(eggs)})
	}
	switch {
	case d.titled("title stuffing"):
		list = append(list, Caution{"temperature", "stuffing: cook to 165 °F (74 °C) in the middle", fromChart, nil})
	case d.titled("title casserole"):
		list = append(list, Caution{"temperature", "casserole: cook to 165 °F (74 °C) in the middle", fromChart, nil})
	}
	return list
}

// storage tells how long a dish that spoils is kept, and how it is reheated.
func (d *dishView) storage() []Caution {
	if len(d.analysis.Lines) < 2 || d.preserved() != notPreserved {
		return nil
	}
	flesh, other := d.perishable()
	if len(flesh) == 0 && (len(other) == 0 || cautionRules("title no storage").in(d.head) == doesContain) {
		return nil
	}
	text := "refrigerate at 40 °F (4 °C) within 2 hours, 1 hour above 90 °F, in dishes up to 2 inches deep; use within 3 to 4 days or freeze"
	source := fromLeftovers
	_, raw := d.rawEgg()
	switch {
	case raw:
	case cautionRules("title soup").in(d.head) == doesContain:
		text += "; reheat to a boil, at least 165 °F (74 °C)"
		source += "; soups, from memory"
	case !d.titled("title cold dish") && (len(d.steps) == 0 || d.told("heat")):
		text += "; reheat to 165 °F (74 °C)"
	}
	if d.told("slow cooker") {
		text += ", not in the slow cooker"
		source += "; slow cooker, from memory"
	}
	list := []Caution{{"storage", text, source, cautionLines(flesh, other)}}
	if d.titled("title hard boiled egg") {
		list = []Caution{{"storage", "hard-boiled eggs: refrigerate within 2 hours and use within 1 week", fromStorageMemo, cautionLines(flesh, other)}}
	}
	return list
}

// perishable returns what spoils in the dish: meat and fish of every kind; and
// what else spoils, milk, eggs and, where the directions cook them, grains,
// dried pulses and vegetables.
func (d *dishView) perishable() (flesh, other []dishFood) {
	cooked := d.told("heat") || len(d.steps) == 0 && (d.titled("title soup") || d.titled("title casserole"))
	for _, in := range d.foods {
		if in.food.IsZero() {
			if in.fleshByWords() != noFlesh {
				flesh = append(flesh, in)
			}
			continue
		}
		switch description := in.food.Description(); in.food.Group() {
		case "Poultry Products", "Beef Products", "Pork Products", "Lamb, Veal, and Game Products", "Finfish and Shellfish Products", "Sausages and Luncheon Meats":
			if !describedAs(description, "Fish oil") {
				flesh = append(flesh, in)
			}
		case "Dairy and Egg Products":
			if !describedAs(description, "Butter,") && !strings.Contains(description, "dry") && !strings.Contains(description, "dried") {
				other = append(other, in)
			}
		case "Legumes and Legume Products":
			ready := cooked || in.food.State() == fooddata.Canned || in.food.State() == fooddata.Cooked
			if ready && !describedAs(description, "Peanut", "Soy sauce", "Miso") || describedAs(description, "Tofu", "Hummus") {
				other = append(other, in)
			}
		case "Vegetables and Vegetable Products", "Soups, Sauces, and Gravies":
			if cooked && in.food.State() != fooddata.Dried {
				other = append(other, in)
			}
		case "Cereal Grains and Pasta":
			if cooked && (describedAs(description, "Rice", "Pasta", "Macaroni", "Spaghetti", "Noodles", "Couscous", "Bulgur", "Quinoa", "Barley", "Millet") &&
				!strings.Contains(description, "flour")) {
				other = append(other, in)
			}
		}
	}
	return flesh, other
}
