package engine

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// asBought are phrases that say a weight includes what is thrown away.
var asBought = []string{"bone-in", "bone in", "on the bone", "shell-on", "shell on", "in shell", "in the shell", "in their shell", "in its shell", "with shell",
	"unpeeled", "in-shell", "head-on", "head on", "unshelled", "as bought", "as purchased", "in pods", "in the pod"}

// birdParts are the cuts of poultry that are sold with their bones unless said
// otherwise.
var birdParts = regexp.MustCompile(`\b(wings?|drumsticks?|thighs?|ribs|legs?|backs?|necks?|leg quarters?)\b`)

// bonedCuts are the cuts of meat that are sold with their bones unless said
// otherwise. A shin may be either.
var bonedCuts = regexp.MustCompile(`\b(bone-in|t-bone|porterhouse|spareribs?|short ribs|back ribs|(fore-?|hind-?)?shank|rack|neck|(loin|rib|blade|shoulder|sirloin) chop)\b|^lamb leg(, lean)?$`)

// otherThanBoned are words of a line that tell that such a cut has no bone, or
// may have none.
var otherThanBoned = wordSet("boneless boned deboned fillet filet shin meat ground minced butterflied rolled diced cubed cube")

// soldEitherWay are the cuts that are sold without their bones too.
var soldEitherWay = regexp.MustCompile(`\b(thighs?|drumsticks?|legs?|short ribs|chop)\b`)

// ifBoneless says how to correct the weight of a cut that is taken to have its bone.
func ifBoneless(f fooddata.Food, item grammar.Item) string {
	if !soldEitherWay.MatchString(f.Name()) || len(item.Words) == 0 {
		return ""
	}
	return fmt.Sprintf("; if it has none, say \"use boneless %s\"", strings.Join(item.Words, " "))
}

// wholeBirds are the birds whose bare name means the whole bird.
var wholeBirds = regexp.MustCompile(`^(duck|goose|quail|squab|pheasant|guinea hen|cornish hen)\b`)

// birdCuts are words of a line that tell that it is not of the whole bird.
var birdCuts = wordSet("breast leg thigh wing drumstick fillet meat boneless skinless liver neck ground minced confit")

// fishCuts are words of a line that tell that it is not of the whole fish.
var fishCuts = wordSet("fillet filet steak loin portion cut boneless skinless side center belly tail smoked canned slice piece meat")

// eatenWhole are fish so small that their bones are eaten.
var eatenWhole = regexp.MustCompile(`\b(smelt|anchovy|anchovies|sardine|sprat|whitebait)`)

// wholeFish and guttedFish are the shares thrown away of a whole fish.
//
// SR28 gives brook trout 53 % (15274: skin, head, viscera, bones). Of a gutted
// fish a little over half is eaten (common practice, no source).
const (
	wholeFish  = 53
	guttedFish = 45
)

// trimmedAfter are preparations of fruit and vegetables that take something
// off. After the food's name they tell that it was weighed before ("2 lb
// potatoes, peeled"); before it, that it was weighed after ("2 lb peeled
// potatoes").
var trimmedAfter = wordSet("peeled pared cored seeded deseeded pitted stoned hulled shelled podded trimmed topped stemmed destemmed husked shucked")

// floretWords are what broccoli and cauliflower are cut to without their leaves
// and stalks: "1 lb broccoli, cut into florets". Spears keep the tender part of
// the stalk: of broccoli as bought they are 81 % (USDA Food Buying Guide, from
// memory), which is more than the source's refuse of 39 % leaves.
var floretWords = wordSet("floret florets floweret flowerets")

const spearsOfBroccoli = 0.81

// weighedItem is what edible looks at of an item that is weighed.
type weighedItem struct {
	item  grammar.Item
	said  string   // all of its words
	words []string // the same as fooddata.Normalise gives them
	cue   string   // the phrase by which it is weighed as bought, or ""
	each  float64  // grams of one of several that are counted and weighed, else 0
}

func weighedAs(item grammar.Item, grams float64) weighedItem {
	w := weighedItem{item: item}
	if a := item.Amount; a != nil && a.Terms[0].Measure == nil && ratio(a.Terms[0].Quantity.Low) > 0 {
		w.each = grams / ratio(a.Terms[0].Quantity.Low)
	}
	w.said = wordsTogether(item)
	w.words = fooddata.Normalise(strings.ReplaceAll(w.said, "-", " "))
	w.cue = cueOf(w.said)
	return w
}

func wordsTogether(item grammar.Item) string {
	return strings.Join(append(slices.Clone(item.Words), item.Prep...), " ") + " " + strings.ToLower(strings.Join(item.Aside, " "))
}

// cueOf returns the phrase by which words say that a weight is as bought, or "".
func cueOf(said string) string {
	for _, cue := range asBought {
		if strings.Contains(said, cue) {
			return cue
		}
	}
	return ""
}

func (w weighedItem) has(words ...string) bool {
	for _, want := range words {
		if want == "one" && w.each > 0 {
			return true
		}
		if n := fooddata.Normalise(want); len(n) == 1 && slices.Contains(w.words, n[0]) {
			return true
		}
	}
	return false
}

func (w weighedItem) hasOf(set map[string]bool) bool {
	return slices.ContainsFunc(w.words, func(word string) bool { return set[word] })
}

// edible returns the share of a written weight that is eaten, and what to say
// of it; the note is empty if nothing is to be said. It returns a share of
// zero if something is thrown away and the table does not say how much.
func (e *Engine) edible(f fooddata.Food, item grammar.Item, w weight) (float64, string) {
	if w.fromCan {
		return 1, ""
	}
	if percent, _ := f.Refuse(); percent == 0 && kindOfBuy(f) == "" && cueOf(wordsTogether(item)) == "" {
		return 1, ""
	}
	as, r := weighedAs(item, w.grams.Low), refuseOf(f)
	taken := func(r refuse, why string) (float64, string) {
		if r.source != "" {
			why += " (" + r.source + ")"
		}
		return 1 - r.percent/100, fmt.Sprintf("%.0f %% taken off for %s%s", r.percent, r.words(), why)
	}
	own, way := e.ownRefuse(f, as)
	if as.portion() {
		if share, note := asPortion(f, r, own, way, as); share > 0 {
			return share, note
		}
	}
	switch {
	case way == "taken":
		share, note := taken(own, "")
		if as.cue == "" && isShell(own.what) {
			note += fmt.Sprintf("; of the meat alone, say %q", meatOf(f))
		}
		return share, note
	case as.cue == "unpeeled" && !slices.Contains(item.Prep, "peeled") && (strings.Contains(r.what, "paring") || strings.Contains(r.what, "peel") || strings.Contains(r.what, "skin")) && f.Group() != "Finfish and Shellfish Products":
		return 1, "" // the peel is eaten
	case as.cue != "":
		if r = withBone(f, r, as); r.percent == 0 {
			return 0, fmt.Sprintf("how much of the weight of %s is thrown away is not known", f.Name())
		}
		return taken(r, "")
	case way == "note":
		return 1, fmt.Sprintf("weight taken as edible; as bought, about %.0f %% of it is %s (%s)", own.percent, own.what, own.source)
	}
	if whole, ok := wholeFishRefuse(f, as); ok {
		return taken(whole, "")
	}
	if r.percent == 0 {
		return 1, ""
	}
	switch f.Group() {
	case "Poultry Products", "Finfish and Shellfish Products":
		if (soldWithBone(f, as) || slices.Contains(item.Words, "whole") || slices.Contains(item.Prep, "jointed") || slices.Contains(item.Prep, "cut") && slices.Contains(item.Prep, "up")) &&
			r.share(bonePart) > 0 {
			share, note := taken(withBone(f, r, as), "")
			return share, note + ifBoneless(f, item)
		}
	case "Beef Products", "Pork Products", "Lamb, Veal, and Game Products":
		if soldWithBone(f, as) && r.share(bonePart) > 0 {
			share, note := taken(r, "")
			return share, note + ifBoneless(f, item)
		}
	case "Vegetables and Vegetable Products", "Fruits and Fruit Juices":
		for _, word := range item.Prep {
			switch {
			case trimmedAfter[word]:
				return taken(r, ", weighed before it was "+word)
			case !strings.Contains(r.what, "stalk") || slices.Contains(item.Words, "crown") || slices.Contains(item.Words, "crowns"):
			case floretWords[word]:
				return taken(r, ", weighed before it was cut to "+word)
			case word == "spear" || word == "spears":
				return spearsOfBroccoli, fmt.Sprintf("%.0f %% taken off for leaves and stalk ends, weighed before it was cut to spears", 100*(1-spearsOfBroccoli))
			}
		}
	}
	if (r.percent >= 20 || r.share(bonePart) >= fewestBones) && !boughtEdible(f, as.said) {
		return 1, fmt.Sprintf("weight taken as edible; as bought, %.0f %% of it is %s", r.percent, r.words())
	}
	return 1, ""
}

// portion reports a weight of what is on a plate: nobody buys 3 oz of mussels in
// their shells.
func (w weighedItem) portion() bool {
	return w.cue == "" && w.each == 0 && !w.has("whole", "live") && w.item.Amount != nil && gramsSaid(w.item.Amount) > 0 && gramsSaid(w.item.Amount) <= largestPortion
}

// largestPortion is the weight in grams up to which food of an animal is taken as
// weighed on the plate: half a pound (common practice, no source).
const largestPortion = 230

// asPortion is edible for a weight of what is on a plate; its share is below zero
// for what is not of an animal.
func asPortion(f fooddata.Food, r, own refuse, way string, as weighedItem) (float64, string) {
	switch {
	case way != "":
		return 1, fmt.Sprintf("weight taken as edible; as bought, about %.0f %% of it is %s (%s)", own.percent, own.what, own.source)
	case kindOfBuy(f) != "" && r.percent > 0:
		if (r.percent >= 20 || r.share(bonePart) >= fewestBones) && !boughtEdible(f, as.said) {
			return 1, fmt.Sprintf("weight taken as edible; as bought, %.0f %% of it is %s", r.percent, r.words())
		}
		return 1, ""
	}
	return -1, ""
}

// fewestBones is the share of bone, in per cent, from which a weight that is
// taken as edible is said to be so.
const fewestBones = 10

// soldWithBone reports whether what is weighed is sold with its bone unless the
// line says otherwise.
func soldWithBone(f fooddata.Food, as weighedItem) bool {
	if f.State() == fooddata.Cooked || as.has("boneless") || strings.Contains(f.Name(), "boneless") {
		return false
	}
	if f.Group() == "Poultry Products" {
		if as.has("boned", "deboned", "fillet", "meat") && !as.has("on") {
			return false
		}
		return birdParts.MatchString(f.Name()) || strings.HasPrefix(f.Name(), "whole ") || wholeBirds.MatchString(f.Name()) && !as.hasOf(birdCuts) ||
			len(as.item.Words) == 1 && as.item.Words[0] == "turkey" && as.item.Amount != nil && gramsSaid(as.item.Amount) >= aWholeTurkey
	}
	return bonedCuts.MatchString(f.Name()) && !as.hasOf(otherThanBoned)
}

// aWholeTurkey is the weight in grams from which "turkey" is the whole bird.
const aWholeTurkey = 3000

// gramsSaid is the weight of an amount that is one weight, else 0.
func gramsSaid(a *grammar.Amount) float64 {
	t := a.Terms[0]
	if len(a.Terms) != 1 || t.Measure == nil || t.Measure.Kind != grammar.Weight {
		return 0
	}
	return ratio(t.Quantity.Low) * ratio(t.Measure.Amount)
}

// wholeFishRefuse gives the refuse of a fish that is weighed whole.
func wholeFishRefuse(f fooddata.Food, as weighedItem) (refuse, bool) {
	if !isWholeFish(f, as) {
		return refuse{}, false
	}
	if as.has("gutted", "cleaned", "dressed", "scaled") {
		return refuse{percent: guttedFish, what: "head, skin and bones", source: "common practice, no source"}, true
	}
	return refuse{percent: wholeFish, what: "head, skin, bones and innards", source: "SR28 15274, brook trout"}, true
}

// isWholeFish reports a whole raw fish.
func isWholeFish(f fooddata.Food, as weighedItem) bool {
	return f.Group() == "Finfish and Shellfish Products" && strings.HasPrefix(f.Description(), "Fish, ") && f.State() == fooddata.Raw && !eatenWhole.MatchString(strings.ToLower(f.Description())) && !as.hasOf(fishCuts) &&
		(as.has("whole", "gutted", "dressed", "cleaned", "head") || as.cue == "bone-in" || as.each >= smallestFish)
}

// smallestFish is the weight in grams from which one fish that is counted is a
// whole one and no fillet: "2 trout (12 oz each)".
const smallestFish = 225

// unweighedFish reports a whole fish whose weight is not told: the table has
// that of a fillet only.
func unweighedFish(f fooddata.Food, item grammar.Item) bool {
	as := weighedAs(item, 0)
	return as.has("whole") && isWholeFish(f, as)
}

// boughtEdible reports whether what is weighed is what is eaten, by the food's
// name or the words of the line: nuts, boneless or skinless or cooked meat.
func boughtEdible(f fooddata.Food, said string) bool {
	if f.Group() == "Nut and Seed Products" || f.State() == fooddata.Cooked {
		return true
	}
	all := f.Name() + " " + said
	for _, word := range []string{"boneless", "skinless", "cooked", "shelled", "peeled"} {
		if strings.Contains(all, word) && !strings.Contains(all, "un"+word) {
			return true
		}
	}
	return false
}
