package main

import (
	"strconv"
	"strings"

	"pottle/fooddata"
)

// addedDecimals is how many decimals the figures for added sugars have: total
// sugars have 2 and a share is in whole per cent.
const addedDecimals = 4

// addSugars gives each food its added sugars, per 21 CFR 101.9(c)(6)(iii), by
// the class that the list gives it:
//
//	none         no added sugars
//	all          all its sugars are added
//	60%          that share of its sugars is added
//	minus 01234  its sugars less those of the plain food 01234
//	less lactose its sugars less its lactose
//	unknown      not known
//
// A food without any sugars or carbohydrate has none added, whatever its class.
func addSugars(kept, all []*food, byNumber map[string]*food, path string, faults *faults) {
	rules := readRules(path, 4, faults)
	for _, f := range kept {
		r := last(rules, f)
		if r == nil {
			faults.add("added_sugar.tsv: no class for %s %s: %s", f.number, f.group, f.description)
			continue
		}
		added := &f.figures[fooddata.AddedSugars]
		sugars := f.figures[fooddata.Sugars]
		carbohydrate := f.figures[fooddata.Carbohydrate]
		class := r.rest[0]
		switch share, isShare := strings.CutSuffix(class, "%"); {
		case class == "none":
			*added, f.addedBasis = figure{0, true}, "none added"
		case sugars.ok && sugars.scaled == 0:
			*added, f.addedBasis = figure{0, true}, "it has no sugars"
		case carbohydrate.ok && carbohydrate.scaled == 0:
			*added, f.addedBasis = figure{0, true}, "it has no carbohydrate"
		case class == "unknown" || !sugars.ok:
			f.addedBasis = "not known"
		case class == "all":
			*added, f.addedBasis = figure{sugars.scaled * 100, true}, "all added"
		case isShare:
			percent, err := strconv.Atoi(share)
			if err != nil || percent < 1 || percent > 99 {
				faults.add("%s: class %q", r.at, class)
			}
			*added = figure{sugars.scaled * uint32(percent), true}
			f.addedBasis = share + " % of its sugars"
		case class == "less lactose":
			lactose := f.figures[fooddata.Lactose]
			if !lactose.ok {
				f.addedBasis = "not known"
				continue
			}
			*added = figure{(sugars.scaled - min(sugars.scaled, lactose.scaled)) * 100, true}
			f.addedBasis = "its sugars less its lactose"
		default:
			number, _ := strings.CutPrefix(class, "minus ")
			plain := byNumber[number]
			if plain == nil || !plain.figures[fooddata.Sugars].ok {
				faults.add("%s: class %q", r.at, class)
				continue
			}
			less := min(sugars.scaled, plain.figures[fooddata.Sugars].scaled)
			*added = figure{(sugars.scaled - less) * 100, true}
			f.addedBasis = "its sugars less those of " + plainName(plain)
		}
	}
	unused(rules, all, faults)
}

// plainName names a counterpart, which may itself not be kept.
func plainName(f *food) string {
	if f.name != "" {
		return f.name
	}
	return nameFrom(f.description, true)
}
