package main

import (
	"regexp"
	"slices"
	"strings"

	"pottle/fooddata"
)

// nameByRule gives a display name to each food that has none, so that no two
// foods share one: short if the short form is free, else with all that the
// description says, else with the number too.
func nameByRule(kept []*food) {
	short, full := make(map[string]int), make(map[string]int)
	for _, f := range kept {
		if f.curated {
			for _, n := range f.names {
				short[n.key]++
				full[n.key]++
			}
		} else {
			short[key(nameFrom(f.description, true))]++
			full[key(nameFrom(f.description, false))]++
		}
	}
	for _, f := range kept {
		if f.curated {
			continue
		}
		f.name = nameFrom(f.description, true)
		if short[key(f.name)] > 1 {
			f.name = nameFrom(f.description, false)
			if full[key(f.name)] > 1 {
				f.name += ", no. " + f.number
			}
		}
	}
}

func key(name string) string { return strings.Join(fooddata.Normalise(name), " ") }

var (
	forPrograms = regexp.MustCompile(`(?i)\s*\((includes foods|includes:|formerly|usda|may contain)[^)]*\)`)
	brackets    = regexp.MustCompile(`\s*\([^()]*\)`)
)

// droppedParts are parts of a description that a short name does without.
var droppedParts = []string{
	"mature seeds", "all commercial varieties", "commercial varieties", "nfs", "commercial", "commercially prepared",
	"all grades", "all classes", "year round average", "regular", "fresh", "with added ascorbic acid",
	"without added ascorbic acid", "separable lean and fat", "all types", "all varieties", "upc",
}

// nameFrom makes a name of a USDA description: lower case, the first two parts
// turned round where that reads naturally ("Beans, kidney, red" -> "kidney beans,
// red"), and, for a short name, without brackets and what droppedParts lists.
func nameFrom(description string, short bool) string {
	d := forPrograms.ReplaceAllString(description, "")
	if short {
		d = brackets.ReplaceAllString(d, "")
	}
	var parts []string
	for i, p := range strings.Split(strings.ToLower(d), ",") {
		p = strings.Join(strings.Fields(p), " ")
		if p == "" || short && i > 0 && slices.Contains(droppedParts, p) {
			continue
		}
		parts = append(parts, p)
	}
	if len(parts) > 1 {
		parts = turnRound(parts)
	}
	return strings.Join(parts, ", ")
}

var (
	meats = []string{"beef", "pork", "lamb", "veal", "chicken", "turkey", "duck", "goose", "bison", "ham", "ostrich", "emu"}

	// notFirst are words that do not read well before the noun they qualify.
	notFirst = regexp.MustCompile(`^(raw|cooked|canned|boiled|baked|frozen|dehydrated|unprepared|prepared|unenriched|enriched|includes|` +
		`made|mature|average|all|or|and|average of|homemade|fluid|solids|ready|ground|mixed|stewed|sulfured|uncooked|unsweetened|sweetened|` +
		`shelf|plain|leaves|roots|pods|seeds|tops|kernels|hearts)\b|\b(with|without|in|from|and|or|for|to|of|by|added)\b|\d`)
)

// turnRound puts the second part of a description before the first, or in its
// stead.
func turnRound(parts []string) []string {
	head, kind, rest := parts[0], parts[1], parts[2:]
	last := head[strings.LastIndexByte(head, ' ')+1:]
	turned := ""
	switch {
	case generalHead(head) || head == "soup" && strings.Contains(kind, "soup"):
		turned = kind
	case slices.Contains(meats, head) && !notFirst.MatchString(kind) && len(strings.Fields(kind)) <= 2:
		turned = head + " " + kind
	case strings.Contains(kind, fooddata.Singular(last)) && len(strings.Fields(kind)) > 1:
		turned = kind
	case len(strings.Fields(head)) <= 2 && len(strings.Fields(kind)) <= 2 && !notFirst.MatchString(kind) && !strings.Contains(head, " or "):
		turned = kind + " " + head
	default:
		return parts
	}
	return append([]string{turned}, rest...)
}
