package grammar_test

import (
	"fmt"
	"strings"

	"pottle/grammar"
)

// describe writes what a line was read as, so that tables can hold it:
//
//	amount | words | prep: … | aside: … | juice | or: … | optional | more: … | note: …
//
// Parts that are empty are left out; an item without an amount gives the
// reason in its place: "(to taste)". Items are parted by " + ", choices stand
// in brackets.
func describe(items []grammar.Item) string {
	var all []string
	for _, item := range items {
		all = append(all, describeItem(item))
	}
	return strings.Join(all, " + ")
}

func describeItem(item grammar.Item) string {
	var parts []string
	add := func(label string, values ...string) {
		if len(values) > 0 && values[0] != "" {
			parts = append(parts, label+strings.Join(values, " "))
		}
	}
	if item.Amount != nil {
		add("", describeAmount(*item.Amount))
	} else {
		add("", "("+item.Uncounted+")")
	}
	add("", item.Words...)
	add("prep: ", item.Prep...)
	for _, aside := range item.Aside {
		add("aside: ", aside)
	}
	add("", [...]string{"", "juice", "zest"}[item.Part])
	for _, or := range item.Or {
		add("or: ", "["+describeItem(or)+"]")
	}
	if len(item.Or) == 0 { // else they repeat the first choice
		add("shares: ", item.Shares...)
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

// describeAmount is Amount.String with the marks that it leaves out.
func describeAmount(a grammar.Amount) string {
	s := a.String()
	for _, same := range a.Same {
		if same.Total {
			s += " in all"
		}
	}
	return s
}

var _ = fmt.Sprint
