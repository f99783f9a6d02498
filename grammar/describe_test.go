package grammar_test

import (
	"strings"

	"pottle/grammar"
)

// describe writes what a line was read as, so that tables can hold it:
//
//	amount | words | prep: … | aside: … | juice | or: […] | optional | more: … | note: …
//
// Parts that are empty are left out. An item without an amount has the reason
// in its place: "(to taste)". Items are parted by " + ".
func describe(items []grammar.Item) string {
	var all []string
	for _, item := range items {
		all = append(all, describeItem(item))
	}
	return strings.Join(all, " + ")
}

func describeItem(item grammar.Item) string {
	var parts []string
	add := func(label, value string) {
		if value != "" {
			parts = append(parts, label+value)
		}
	}
	if item.Amount != nil {
		add("", item.Amount.String())
	} else {
		add("", "("+item.Uncounted+")")
	}
	add("", strings.Join(item.Words, " "))
	add("prep: ", strings.Join(item.Prep, " "))
	for _, aside := range item.Aside {
		add("aside: ", aside)
	}
	switch item.Part {
	case grammar.Juice:
		add("", "juice")
	case grammar.Zest:
		add("", "zest")
	}
	for _, or := range item.Or {
		add("or: ", "["+describeItem(or)+"]")
	}
	if len(item.Or) == 0 { // with choices, Shares are the words of the first
		add("shares: ", strings.Join(item.Shares, " "))
	}
	if item.Optional {
		add("", "optional")
	}
	add("more: ", item.More)
	for _, note := range item.Notes {
		add("note: ", note)
	}
	return strings.Join(parts, " | ")
}
