package main

import "testing"

func TestNameFrom(t *testing.T) {
	for _, tc := range []struct{ description, short, full string }{
		{"Beans, kidney, red, mature seeds, raw", "kidney beans, red, raw", "kidney beans, red, mature seeds, raw"},
		{"Lettuce, iceberg (includes crisphead types), raw", "iceberg lettuce, raw", "lettuce, iceberg (includes crisphead types), raw"},
		{"Nuts, almonds", "almonds", "almonds"},
		{"Fish, salmon, Atlantic, wild, raw", "salmon, atlantic, wild, raw", "salmon, atlantic, wild, raw"},
		{"Beef, chuck, under blade, raw", "beef chuck, under blade, raw", "beef chuck, under blade, raw"},
		{"Carrots, raw", "carrots, raw", "carrots, raw"},
		{"Peas, canned", "peas, canned", "peas, canned"},
		{"Bread, rye", "rye bread", "rye bread"},
		{"Salad dressing, ranch dressing, regular", "ranch dressing", "ranch dressing, regular"},
		{"Refried beans, canned (includes USDA commodity)", "refried beans, canned", "refried beans, canned (includes usda commodity)"},
		{"Honey", "honey", "honey"},
	} {
		if got := nameFrom(tc.description, true); got != tc.short {
			t.Errorf("%q: short %q, want %q", tc.description, got, tc.short)
		}
		if got := nameFrom(tc.description, false); got != tc.full {
			t.Errorf("%q: full %q, want %q", tc.description, got, tc.full)
		}
	}
}

func TestNameByRule(t *testing.T) {
	foods := []*food{
		{number: "1", description: "Beans, black, mature seeds, raw"},
		{number: "2", description: "Beans, black, raw"},
		{number: "3", description: "Beans, black, raw"},
		{number: "4", name: "rye bread", curated: true, names: []name{{key: "rye bread"}}},
		{number: "5", description: "Bread, rye"},
	}
	nameByRule(foods)
	for i, want := range []string{
		"black beans, mature seeds, raw", "black beans, raw, no. 2", "black beans, raw, no. 3", "rye bread", "rye bread, no. 5",
	} {
		if foods[i].name != want {
			t.Errorf("food %s is %q, want %q", foods[i].number, foods[i].name, want)
		}
	}
}
