package main

import (
	"regexp"
	"slices"
	"strings"

	"pottle/fooddata"
)

// readMeasure makes portions of a measure as the source writes it, of which
// amount weigh grams, both in thousandths. It returns none for a measure that
// names a brand, and otherwise one, with these exceptions: "oz (14 halves)" says
// what 14 halves weigh too.
//
//	cup, chopped               cup; detail chopped
//	slice, large (1/4" thick)  slice; size large; detail 1/4" thick
//	medium (2-1/2" dia)        each; size medium; detail 2-1/2" dia
//	fruit without seeds        each; detail fruit, without seeds
//	serving 2 tbsp             2 tbsp; detail serving
//	serving 1/2 cup            1 cup of twice the grams; detail serving
func readMeasure(description, text string, amount, grams int) []portion {
	text = includes.ReplaceAllString(text, "")
	if brand.MatchString(text) {
		return nil
	}
	p := portion{amount: amount, grams: grams, source: "SR28"}
	text = strings.Join(slices.Compact(strings.Fields(strings.ToLower(text))), " ")
	text = strings.TrimSpace(noise.ReplaceAllString(text, ""))
	text = strings.Replace(text, "thick slice", "slice, thick", 1)
	if m := yield.FindStringSubmatchIndex(text); m != nil {
		p.measure = "yield"
		p.addDetail(text[:m[0]])
		p.addDetail("from 1 lb " + text[m[2]:m[3]])
		return []portion{p}
	}
	if m := servingOf.FindStringSubmatch(text); m != nil {
		if over, under, ok := fraction(m[1]); ok {
			p.amount, p.grams = amount*over/1000, grams*under
			p.measure, p.detail = measureWords[m[2]], "serving"
			return []portion{p}
		}
	}
	if text == "unit 2 large or 5 small" { // scallops
		return []portion{
			{amount: 2 * amount, grams: grams, measure: "each", size: "large", source: p.source},
			{amount: 5 * amount, grams: grams, measure: "each", size: "small", source: p.source},
		}
	}
	head, rest := divide(text)
	p.readHead(head, description)
	for _, d := range rest {
		p.addDetail(d)
	}
	if isVolume(p.measure) {
		p.detail = flOz.ReplaceAllString(p.detail, "")
	}
	if p.measure != "slice" && p.measure != "wedge" && partOf.MatchString(text) {
		p.measure = "piece"
	}
	list := []portion{p}
	if m := countIn.FindStringSubmatch(text); m != nil && p.measure == "oz" {
		if n, err := scaled(m[1], 0); err == nil && n > 0 {
			c := portion{amount: n * amount, grams: grams, source: "SR28"}
			c.readHead(m[2], description)
			list = append(list, c)
		}
	}
	return list
}

var (
	brand = regexp.MustCompile(`(?i)\b(McDonald|Dannon|Swiss Miss|Alba|Keebler|Little Debbie|Triscuit|Cheez|goldfish|gold fish|Toaster Strudel|` +
		`Wheat Thins|Hershey|Ghirardelli|Bakers|Archway|Grandma|Crispy Crowns|Butterfinger|BB's|Wasa|Rye Krisp|Sugar Twin|Chiclets|` +
		`Figaroo|Pepperidge|Gerber|Heinz|Beech|Earth's Best|Chips Ahoy|brownulated|brands?)`)
	includes  = regexp.MustCompile(`(?i)\(?\binclude[sd]? [^)]*\)?`)
	noise     = regexp.MustCompile(`(?i)\(? ?1 (nlea )?serving[^)]*\)?|\(?nlea serving( size)?[^)]*\)|, ns as to .*| 2011 label|\bnfs\b|\bfrom \d{5}`)
	yield     = regexp.MustCompile(`\(? ?yield from 1 lb ([^)]*)\)?`)
	servingOf = regexp.MustCompile(`^(?:nlea )?serving \(?(\d+|\d*\.\d+|\d+/ ?\d+) (cups?|tbsp|tablespoons?|tsp|teaspoons?|fl oz|fluid oz|ml)\)?$`)
	partOf    = regexp.MustCompile(`\b1/\d+ (of|cake)\b`)
	flOz      = regexp.MustCompile(`^\d+(\.\d+)? fl oz$`)
	countIn   = regexp.MustCompile(`^oz \((?:approx )?(\d+) (?:whole |medium )?([a-z]+)\)$`)
	dimension = regexp.MustCompile(`^[\d./-]+$`)
)

// measureWords are the words for volumes and weights, and what we write.
var measureWords = map[string]string{
	"cup": "cup", "cups": "cup", "tbsp": "tbsp", "tablespoon": "tbsp", "tablespoons": "tbsp",
	"tsp": "tsp", "teaspoon": "tsp", "teaspoons": "tsp", "fl oz": "fl oz", "fluid oz": "fl oz",
	"pint": "pint", "quart": "quart", "gallon": "gallon", "ml": "ml", "milliliter": "ml", "liter": "l",
	"oz": "oz", "lb": "lb", "g": "g", "grams": "g",
	"cubic inch": "cubic inch", "drink box": "drink box", "recipe yield": "recipe yield",
	"pcs": "piece", "individual box": "box", "individual loaf": "loaf", "individual package": "package",
	"individual cake": "each", "baby ear": "ear", "spear gherkin": "spear",
	"package yield": "package", "package yields": "package", "ice cube": "ice cube",
	"nlea serving": "serving", "individual packet": "packet", "individual container": "container",
	"hush puppy": "each", "miniature box": "box", "small box": "box",
}

var volumes = []string{"cup", "tbsp", "tsp", "fl oz", "pint", "quart", "gallon", "ml", "l"}

func isVolume(measure string) bool { return slices.Contains(volumes, measure) }

// divide parts a measure into what stands before the first comma, bracket or
// "with" and the details after it.
func divide(text string) (head string, details []string) {
	part := func(s string) {
		if s = strings.TrimRight(strings.Trim(s, " ,;()"), "."); s == "" {
			return
		}
		if head == "" {
			head = s
		} else {
			details = append(details, s)
		}
	}
	depth, start := 0, 0
	for i, c := range text {
		switch {
		case c == '(':
			part(text[start:i])
			depth, start = depth+1, i+1
		case c == ')' && depth > 0:
			part(text[start:i])
			depth, start = depth-1, i+1
		case c == ',' && depth == 0:
			part(text[start:i])
			start = i + 1
		}
	}
	part(text[start:])
	return head, details
}

// readHead finds the measure and the size in the words before the details; the
// words left over are details.
func (p *portion) readHead(head, description string) {
	all := strings.Fields(head)
	if p.takeMeasure(all) {
		return
	}
	words := p.takeSizes(all)
	switch {
	case len(words) == 0 || p.size != "" && dimension.MatchString(words[0]):
		p.measure = "each"
		p.addDetail(strings.Join(words, " "))
	case p.takeMeasure(words), p.takeItem(words, description):
	case dimension.MatchString(words[0]):
		p.measure = "serving"
		p.addDetail(strings.Join(words, " "))
	default:
		p.measure = fooddata.Singular(words[0])
		p.addDetail(strings.Join(words[1:], " "))
	}
}

// takeMeasure reads one of measureWords and makes the words after it a detail, in
// which a size stays: "cup large chips".
func (p *portion) takeMeasure(words []string) bool {
	for n := min(2, len(words)); n > 0; n-- {
		if m := measureWords[strings.Join(words[:n], " ")]; m != "" {
			p.measure = m
			p.addDetail(strings.TrimPrefix(strings.Join(words[n:], " "), "of "))
			return true
		}
	}
	return false
}

// takeItem reads one whole item, by the food's own noun or a word for any:
// "fruit without seeds", "italian tomato", "piece whole"; or a part of it:
// "apricot half".
func (p *portion) takeItem(words []string, description string) bool {
	first := isWhole(words[0], description)
	second := len(words) > 1 && isWhole(words[1], description) && (words[0] == "piece" || !notItem(words[0]))
	end := 1
	switch {
	case second:
		end = 2
	case !first:
		return false
	}
	if end < len(words) && isPart(words[end]) {
		p.measure = fooddata.Singular(words[end])
		p.addDetail(strings.Join(words[end+1:], " "))
		return true
	}
	p.measure = "each"
	p.addDetail(strings.Join(singulars(words[:end]), " "))
	p.addDetail(strings.Join(words[end:], " "))
	return true
}

func singulars(words []string) []string {
	list := make([]string, len(words))
	for i, w := range words {
		list[i] = fooddata.Singular(w)
	}
	return list
}

// takeSizes takes the words for a size out of words.
func (p *portion) takeSizes(words []string) []string {
	var left []string
	for i := 0; i < len(words); i++ {
		size := ""
		switch w := words[i]; w {
		case "small", "medium", "large", "jumbo":
			size = w
		case "mini", "miniature":
			size = "mini"
		case "extra":
			if i+1 < len(words) && (words[i+1] == "large" || words[i+1] == "small") {
				size = "extra " + words[i+1]
				i++
			}
		}
		if size == "" || p.size != "" {
			left = append(left, words[i])
		} else {
			p.size = size
		}
	}
	return left
}

// addDetail adds a detail, taking a size out of it: "slice, large".
func (p *portion) addDetail(d string) {
	d = strings.Trim(d, " ,;-")
	if words := strings.Fields(d); len(words) > 0 && len(words) <= 2 && !isVolume(p.measure) {
		left := p.takeSizes(words)
		d = strings.Join(left, " ")
	}
	switch {
	case d == "":
	case p.detail == "":
		p.detail = d
	default:
		p.detail += "; " + d
	}
}

// isPart reports whether a word after the item's noun names a part of the item.
func isPart(word string) bool {
	switch fooddata.Singular(word) {
	case "half", "slice", "wedge", "ring", "ball", "piece", "leaf", "spear", "crust", "hole", "stick", "skin", "white", "shell", "pod":
		return true
	}
	return false
}

// isWhole reports whether a word names one whole item of the food: it is the
// noun that the description begins with, or a word for any item.
func isWhole(word, description string) bool {
	word = fooddata.Singular(word)
	switch word {
	case "fruit", "item", "each", "unit", "whole", "nut", "berry", "bird", "melon", "gherkin", "regular":
		return true
	}
	parts := strings.Split(description, ",")
	nouns := fooddata.Normalise(parts[0])
	if len(parts) > 1 && (generalHead(parts[0]) || len(fooddata.Normalise(parts[1])) == 1) {
		nouns = append(nouns, fooddata.Normalise(parts[1])...)
	}
	if notItem(word) {
		return false
	}
	return slices.Contains(nouns, word) || strings.Join(fooddata.Normalise(parts[0]), "") == strings.ReplaceAll(word, "-", "")
}

// notItem reports whether a word names a part or a cut, or no thing at all.
func notItem(word string) bool {
	word = fooddata.Singular(word)
	return isPart(word) || cut[word]
}

// cut holds nouns that descriptions begin with, or have second, and that name a
// part of the thing that one would buy whole.
var cut = map[string]bool{
	"loaf": true, "breast": true, "thigh": true, "drumstick": true, "wing": true, "leg": true, "back": true,
	"neck": true, "gizzard": true, "heart": true, "liver": true, "giblet": true, "steak": true, "roast": true,
	"rib": true, "chop": true, "patty": true, "head": true, "stalk": true, "leaf": true, "root": true,
	"seed": true, "skin": true, "shank": true, "rump": true, "loin": true, "link": true, "stick": true,
	"pod": true, "sprig": true, "clove": true, "bar": true, "chip": true, "piece": true,
	"bunch": true, "sheet": true, "bag": true, "box": true, "block": true, "fillet": true, "cooked": true, "raw": true,
	"dried": true, "canned": true, "frozen": true,
}

// generalHead reports whether the first part of a description names a class of
// foods, so that the second names the food: "Nuts, almonds".
func generalHead(part string) bool {
	switch strings.ToLower(strings.TrimSpace(part)) {
	case "nuts", "seeds", "spices", "fish", "mollusks", "crustaceans", "beverages", "alcoholic beverage",
		"alcoholic beverages", "leavening agents", "sweeteners", "snacks", "candies", "cereals",
		"cereals ready-to-eat", "cookies", "game meat", "puddings", "toppings":
		return true
	}
	return false
}

// fraction reads "14", ".5" or "1/2": over in thousandths, and under.
func fraction(s string) (over, under int, ok bool) {
	a, b, divided := strings.Cut(s, "/")
	over, err := scaled(a, 3)
	if err != nil || over == 0 {
		return 0, 0, false
	}
	if !divided {
		return over, 1, true
	}
	under, err = scaled(strings.TrimSpace(b), 0)
	return over, under, err == nil && under > 0
}
