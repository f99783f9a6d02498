package grammar

import (
	"fmt"
	"regexp"
	"strings"
)

// canNumbers are the net weights in ounces of the can sizes that older recipes
// name, the middle of the published range (Kansas State University Extension
// can-size table: No. 300 14 to 16 oz, No. 303 16 oz, No. 2 20 oz, No. 2 1/2
// 26 to 30 oz, No. 10 6 lb to 7 lb 5 oz).
var canNumbers = map[string]string{"300": "15", "303": "16", "2": "20", "2 1/2": "28", "2½": "28", "10": "106"}

var numberedCanPattern = regexp.MustCompile(`(?i)(?:#|\bno\. ?)(300|303|2 1/2|2½|2|10)[ -]+(cans?|tins?)\b`)

var runTogether = regexp.MustCompile(`^([1-9lI])([1-7lI]) ?/ ?([2348])\b`)

// splitFraction reads "11/2 cups", a mixed number that lost its space, as
// 1 1/2 and says so; a cook writes no eleven halves.
func splitFraction(text string) (string, string) {
	at := runTogether.FindStringSubmatchIndex(text)
	if at == nil {
		return text, ""
	}
	above, below := misreadDigit.Replace(text[at[4]:at[5]]), text[at[6]:at[7]]
	if above >= below {
		return text, ""
	}
	mixed := misreadDigit.Replace(text[at[2]:at[3]]) + " " + above + "/" + below
	return mixed + text[at[1]:], fmt.Sprintf("%q read as %s", text[:at[1]], mixed)
}

// fromCube finds of how many cubes a stock is made up, which is no second amount:
// "200 ml beef stock made from 1 cube".
var fromCube = regexp.MustCompile(`(?i)(\b(?:stock|broth|bouillon)[ ,]*[ (])(?:made )?(?:up )?(?:from|with|using) (?:1|one|a|½|1/2|half a|2|two) (?:[a-z]+ ){0,2}cubes?\b`)

// numberedCan writes "#303 can" as a can of its net weight, with a note.
func numberedCan(text string) (string, string) {
	if !strings.ContainsAny(text, "#.") {
		return text, ""
	}
	at := numberedCanPattern.FindStringSubmatchIndex(text)
	if at == nil {
		return text, ""
	}
	number, can := text[at[2]:at[3]], text[at[4]:at[5]]
	ounces := canNumbers[number]
	return text[:at[0]] + "(" + ounces + " oz) " + can + text[at[1]:], fmt.Sprintf("a No. %s can taken as %s oz", number, ounces)
}

// soldByWeight are pieces that are told by what one of them weighs.
var soldByWeight = set("fillets filets steaks chops breasts thighs blocks bars portions patties loaves links burgers tenderloins tails bricks logs lobsters roasts racks")
