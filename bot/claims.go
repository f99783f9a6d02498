package bot

import (
	"fmt"
	"strings"

	"pottle/engine"
)

// usualClaims are those that "what can I claim" goes through; of a line of them the
// first that holds is told, since the others say less.
var usualClaims = [][]string{
	{"low calorie"},
	{"fat free", "low fat"}, {"saturated fat free", "low saturated fat"}, {"cholesterol free", "low cholesterol"},
	{"sodium free", "very low sodium", "low sodium"}, {"sugar free"}, {"no added sugar"},
	{"extra lean", "lean"}, {"healthy"},
	{"high in fibre", "good source of fibre"}, {"high in protein", "good source of protein"}, {"high in calcium", "good source of calcium"},
	{"high in iron", "good source of iron"}, {"high in potassium", "good source of potassium"}, {"high in vitamin C", "good source of vitamin C"},
	{"high in vitamin A", "good source of vitamin A"}, {"high in vitamin D", "good source of vitamin D"},
}

// claims lists what may be said of the dish by its figures, as what it is said to be.
func (c *Conversation) claims(reference string) string {
	v := c.inHand()
	var yes, open []string
	used, likely := "", ""
	asks := false
	for _, group := range usualClaims {
		for _, claim := range group {
			verdict := v.analysis.MayClaim(engine.ClaimRequest{Claim: claim, Reference: reference, Original: c.versions[0].analysis, CookedGrams: v.cookedGrams})
			if verdict.ReferenceUsed != "" {
				used = verdict.ReferenceUsed
			}
			if len(verdict.References) > 0 {
				likely = verdict.References[0].Name
			}
			asks = asks || verdict.AskReference && verdict.ReferenceUsed == ""
			if verdict.Allowed {
				yes = append(yes, claim)
				break
			}
			if verdict.Open && !verdict.AskReference {
				open = append(open, claim)
				break
			}
		}
	}
	if asks && reference == "" {
		if likely == "" {
			likely = "main dish"
		}
		return fmt.Sprintf("A claim goes by the reference amount of what the dish is. Say for instance \"what can I claim as %s\".", likely)
	}
	var out []string
	as := ""
	if used != "" {
		as = " (" + used + ")"
	}
	if len(yes) == 0 {
		out = append(out, fmt.Sprintf("None of the usual claims holds by the figures as they stand%s.", as))
	} else {
		out = append(out, fmt.Sprintf("By the figures%s these hold, each under its conditions: %s.", as, strings.Join(yes, ", ")))
	}
	if len(open) > 0 {
		out = append(out, fmt.Sprintf("Open, since something is not known: %s.", strings.Join(open, ", ")))
	}
	say := "low sodium"
	if len(yes) > 0 {
		say = yes[0]
	}
	if reference != "" {
		say += " as " + reference
	}
	out = append(out, fmt.Sprintf("Ask for one to see its rule and conditions: \"can I call it %s\".", say))
	return strings.Join(append(out, engine.ClaimScope), "\n")
}
