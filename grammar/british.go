package grammar

import (
	"slices"
	"strings"
)

// british reports whether lines have words or measures that only British recipes
// have, and none that only American ones have.
func british(lines []Line) bool {
	found := false
	for _, line := range lines {
		for _, item := range line.Items {
			if item.Amount != nil {
				if slices.ContainsFunc(item.Amount.Terms, func(t Term) bool { return measuredIn(t, "cup", "quart", "stick") }) {
					return false
				}
				found = found || slices.ContainsFunc(item.Amount.Terms, func(t Term) bool { return measuredIn(t, "tin", "rasher", "dsp", "imperial pint") })
			}
			for _, words := range append([][]string{item.Words}, item.Tail...) {
				said := singulars(words)
				if holdsAny(said, americanWords) {
					return false
				}
				found = found || holdsAny(said, britishWords)
			}
		}
	}
	return found
}

// measuredIn reports whether a term is in one of the measures.
func measuredIn(t Term, names ...string) bool {
	if t.Each != nil && t.Measure == nil {
		t = *t.Each
	}
	return t.Measure != nil && slices.Contains(names, t.Measure.Name)
}

// singulars writes words in lower case, with a space at either end, hyphens parted
// and the s of the plural taken off.
func singulars(words []string) string {
	var b strings.Builder
	b.WriteByte(' ')
	for _, w := range strings.Fields(strings.ReplaceAll(strings.ToLower(strings.Join(words, " ")), "-", " ")) {
		w = strings.NewReplacer("'", "", "’", "", "é", "e").Replace(w)
		if len(w) > 3 && !strings.HasSuffix(w, "ss") {
			w = strings.TrimSuffix(w, "s")
		}
		b.WriteString(w + " ")
	}
	return b.String()
}

func holdsAny(said string, phrases []string) bool {
	return slices.ContainsFunc(phrases, func(p string) bool { return strings.Contains(said, " "+p+" ") })
}

// britishWords and americanWords are names, without the s of a plural, that recipes
// of only one of the two countries have (common practice, no source). A name that
// both have is on neither list.
var (
	britishWords = strings.Split("double cream|single cream|clotted cream|caster sugar|castor sugar|icing sugar|demerara sugar|golden syrup|black treacle|semi skimmed milk|skimmed milk|full cream milk|plain flour|"+
		"self raising flour|strong white flour|strong flour|wholemeal flour|cornflour|bicarbonate of soda|courgette|aubergine|mangetout|swede|beetroot|spring onion|streaky bacon|back bacon|gammon|rasher|"+
		"stock cube|gravy granule|sultana|beef mince|lamb mince|pork mince|minced beef|prawn|digestive biscuit|sponge finger|suet|broad bean|haricot bean|tomato puree|fromage frai|gelatine leave|desiccated coconut|glace cherrie|flaked almond|chestnut mushroom|maris piper", "|")
	americanWords = strings.Split("heavy cream|heavy whipping cream|half and half|all purpose flour|confectioner sugar|powdered sugar|superfine sugar|zucchini|eggplant|cilantro|scallion|green onion|kosher salt|cornstarch|"+
		"baking soda|arugula|rutabaga|self rising flour|bouillon|ground beef|canola oil|graham cracker|molasse|2% milk|1% milk", "|")
)
