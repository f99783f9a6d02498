package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"pottle/fooddata"
	"pottle/fooddata/internal/layout"
)

// assemble makes the bytes of the table.
func assemble(kept []*food) ([]byte, error) {
	w := &layout.Writer{Release: releaseName}
	w.Text("") // 0, so that an empty text is the zero of its field
	if err := addPortions(w, kept); err != nil {
		return nil, err
	}
	addFoods(w, kept)
	addColumns(w, kept)
	addNames(w, kept)
	addSearch(w, kept)
	return w.Bytes()
}

// addPortions goes first because a portion has 16 bits for each of its texts.
func addPortions(w *layout.Writer, kept []*food) error {
	for _, f := range kept {
		for _, p := range f.portions {
			var ids [4]uint16
			for i, s := range []string{p.measure, p.size, p.detail, p.source} {
				id := w.Text(s)
				if id > math.MaxUint16 {
					return fmt.Errorf("portions have more than %d different texts", math.MaxUint16)
				}
				ids[i] = uint16(id)
			}
			w.Portions = append(w.Portions, layout.Portion{
				Amount: uint32(p.amount), Grams: uint32(p.grams),
				Measure: ids[0], Size: ids[1], Detail: ids[2], Source: ids[3],
			})
		}
	}
	return nil
}

func addFoods(w *layout.Writer, kept []*food) {
	families := familyNumbers(kept)
	portions := 0
	for i, f := range kept {
		group := slices.Index(w.Groups, f.group)
		if group < 0 {
			group = len(w.Groups)
			w.Groups = append(w.Groups, f.group)
		}
		number, _ := strconv.ParseUint(f.number, 10, 32)
		r := layout.Food{
			Number:      uint32(number),
			Name:        w.Text(f.name),
			Description: w.Text(f.shownDescription()),
			AddedBasis:  w.Text(f.addedBasis),
			DensityLike: w.Text(f.densityLike),
			Portions:    uint32(portions),
			Density:     uint16(f.density),
			Contains:    f.contains,
			May:         f.may,
			Family:      families[f.family],
			Group:       uint8(group),
			State:       uint8(f.state),
			Refuse:      uint8(f.refuse),
		}
		if f.refuse > 0 {
			r.RefuseWhat = w.Text(strings.ToLower(f.refuseWhat))
		}
		if f.curated {
			r.Flags |= layout.Curated
		}
		if f.cannedLiquid {
			r.Flags |= layout.CannedLiquid
		}
		w.Foods = append(w.Foods, r)
		portions += len(f.portions)
		if f.family != "" {
			w.Family = append(w.Family, layout.Member{Family: families[f.family], Food: uint16(i)})
		}
	}
	slices.SortStableFunc(w.Family, func(a, b layout.Member) int { return cmp.Compare(a.Family, b.Family) })
}

// familyNumbers numbers the families from 1 in the order of their names.
func familyNumbers(kept []*food) map[string]uint16 {
	var list []string
	for _, f := range kept {
		if f.family != "" {
			list = append(list, f.family)
		}
	}
	slices.Sort(list)
	numbers := make(map[string]uint16)
	for i, family := range slices.Compact(list) {
		numbers[family] = uint16(i + 1)
	}
	return numbers
}

func addColumns(w *layout.Writer, kept []*food) {
	for n := range fooddata.Nutrient(fooddata.NumNutrients) {
		decimals := n.Decimals()
		if n == fooddata.AddedSugars {
			decimals = addedDecimals
		}
		figures := make([]uint32, len(kept))
		for i, f := range kept {
			figures[i] = layout.NoValue
			if f.figures[n].ok {
				figures[i] = f.figures[n].scaled
			}
		}
		w.Column(n.Tag(), decimals, figures)
	}
}

// addNames adds all names. A display name made by rule is a name where no curated
// name has its words in its order.
func addNames(w *layout.Writer, kept []*food) {
	type named struct {
		name
		food int
	}
	taken := make(map[string]bool)
	var list []named
	for i, f := range kept {
		for _, n := range f.names {
			taken[n.key] = true
			list = append(list, named{n, i})
		}
	}
	for i, f := range kept {
		if n := (name{key: key(f.name), text: f.name}); !f.curated && !taken[n.key] {
			list = append(list, named{n, i})
		}
	}
	hash := func(n named) uint32 { return layout.HashWords(strings.Fields(n.key)) }
	slices.SortFunc(list, func(a, b named) int { return cmp.Or(cmp.Compare(hash(a), hash(b)), cmp.Compare(a.key, b.key)) })
	for _, n := range list {
		r := layout.Name{Hash: hash(n), Text: w.Text(n.text), Food: uint16(n.food)}
		if n.open {
			r.Mark |= layout.MarkOpen
		}
		if n.standIn {
			r.Mark |= layout.MarkStandIn
		}
		w.Names = append(w.Names, r)
	}
}

// addSearch adds the docs and the inverted index of their words.
func addSearch(w *layout.Writer, kept []*food) {
	index := make(map[string][]uint16) // docs by word
	var docWords [][]string
	addDoc := func(food, kind int, words []string) {
		words = distinct(words)
		doc := uint16(len(w.Docs))
		for _, word := range words {
			index[word] = append(index[word], doc)
		}
		docWords = append(docWords, words)
		w.Docs = append(w.Docs, layout.Doc{Food: uint16(food), Kind: uint16(kind)})
	}
	for i, f := range kept {
		for _, n := range f.names {
			addDoc(i, layout.CuratedName, strings.Fields(n.key))
		}
		if !f.curated {
			addDoc(i, layout.RuleName, fooddata.Normalise(f.name))
		}
		addDoc(i, layout.Description, fooddata.Normalise(f.description+" "+f.common))
	}

	vocabulary := make([]string, 0, len(index))
	for word := range index {
		vocabulary = append(vocabulary, word)
	}
	slices.Sort(vocabulary)
	weights := make(map[string]uint32)
	for _, word := range vocabulary {
		docs := index[word]
		weight := uint32(math.Round(100 * math.Log(1+float64(len(w.Docs))/float64(len(docs)))))
		weights[word] = weight
		w.Words = append(w.Words, layout.Word{Text: w.Text(word), Postings: uint32(len(w.Postings)), Weight: weight})
		w.Postings = append(w.Postings, docs...)
	}
	for i, words := range docWords {
		for _, word := range words {
			w.Docs[i].Weight += uint16(min(weights[word], math.MaxUint16-uint32(w.Docs[i].Weight)))
		}
	}
}

func distinct(words []string) []string {
	words = slices.Clone(words)
	slices.Sort(words)
	return slices.Compact(words)
}
