package engine

import (
	"fmt"
	"math/big"
	"slices"

	"pottle/grammar"
)

// EditKind says what an Edit does.
type EditKind uint8

// The kinds of edit.
const (
	EditFood     EditKind = iota // put another food in a line, the amount kept
	EditAmount                   // give a line another amount, the food kept
	EditLine                     // put another food and amount in a line
	EditMultiply                 // multiply a line's amount
	EditDrop                     // leave a line out
	EditAdd                      // add a line at the end of the ingredients
	EditInclude                  // count an optional line
	EditServings                 // change the number of servings, not the amounts
)

// Edit is one change of a recipe. Line is an index in Recipe.Lines; Item
// carries what is new.
type Edit struct {
	Kind   EditKind
	Line   int
	Item   grammar.Item // of EditFood, EditAmount, EditLine, EditAdd
	Text   string       // how the new line reads; "" to have it written
	Factor *big.Rat     // of EditMultiply, EditServings
}

// Apply returns a recipe changed by edits, in order, and leaves r as it was.
// It returns an error if an edit names a line that is no ingredient, a factor
// that is not above zero, or nothing to add.
func Apply(r *grammar.Recipe, edits ...Edit) (*grammar.Recipe, error) {
	changed := *r
	changed.Lines = slices.Clone(r.Lines)
	for _, e := range edits {
		if err := applyOne(&changed, e); err != nil {
			return nil, err
		}
	}
	return &changed, nil
}

func applyOne(r *grammar.Recipe, e Edit) error {
	switch e.Kind {
	case EditAdd:
		return addLine(r, e)
	case EditServings:
		if e.Factor == nil || e.Factor.Sign() <= 0 {
			return fmt.Errorf("servings must be above zero")
		}
		r.Servings = grammar.Quantity{Low: e.Factor, High: e.Factor}
		r.Yield = "serves " + r.Servings.String()
		return nil
	}
	if e.Line < 0 || e.Line >= len(r.Lines) || r.Lines[e.Line].Kind != grammar.Ingredient {
		return fmt.Errorf("there is no ingredient line %d", e.Line)
	}
	line := r.Lines[e.Line]
	line.Items = slices.Clone(line.Items)
	was := line.Items[0]
	item := &line.Items[0]
	switch e.Kind {
	case EditFood:
		r.Method = renamed(r.Method, r.Lines, e.Line, e.Item)
		*item = e.Item
		item.Amount, item.Uncounted, item.Optional = was.Amount, was.Uncounted, was.Optional
	case EditAmount:
		*item = SetAmount(was, e.Item.Amount)
		item.Optional = e.Item.Optional
	case EditLine:
		r.Method = renamed(r.Method, r.Lines, e.Line, e.Item)
		line.Items = []grammar.Item{e.Item}
	case EditMultiply:
		if e.Factor == nil || e.Factor.Sign() <= 0 {
			return fmt.Errorf("a factor must be above zero")
		}
		for i := range line.Items {
			line.Items[i] = Multiply(line.Items[i], e.Factor)
		}
	case EditDrop:
		r.Lines = slices.Delete(r.Lines, e.Line, e.Line+1)
		return nil
	case EditInclude:
		item.Optional = false
	}
	line.Fault = nil
	line.Text = e.Text
	if line.Text == "" {
		line.Text = line.Items[0].String()
	}
	r.Lines[e.Line] = line
	return nil
}

func addLine(r *grammar.Recipe, e Edit) error {
	if len(e.Item.Words) == 0 {
		return fmt.Errorf("there is no food to add")
	}
	at, number := 0, 1
	for i, l := range r.Lines {
		number = max(number, l.Number+1)
		if l.Kind == grammar.Ingredient {
			at = i + 1
		}
	}
	text := e.Text
	if text == "" {
		text = e.Item.String()
	}
	line := grammar.Line{Number: number, Text: text, Kind: grammar.Ingredient, Items: []grammar.Item{e.Item}}
	r.Lines = slices.Insert(r.Lines, at, line)
	return nil
}

// SetAmount returns the item with another amount: it is counted then, optional
// or not, and so much of each alternative that had the same amount.
func SetAmount(item grammar.Item, amount *grammar.Amount) grammar.Item {
	item.Or = slices.Clone(item.Or)
	for i, or := range item.Or {
		if item.Amount != nil && or.Amount != nil && or.Amount.String() == item.Amount.String() {
			item.Or[i].Amount = amount
		}
	}
	item.Amount, item.Uncounted, item.Notes, item.Optional = amount, "", nil, false
	return item
}

// Multiply returns the item with every amount multiplied by factor, exactly;
// what one package or piece holds stays as it is.
func Multiply(item grammar.Item, factor *big.Rat) grammar.Item {
	if item.Amount != nil {
		a := multiplyAmount(*item.Amount, factor)
		item.Amount = &a
	}
	item.Or = slices.Clone(item.Or)
	for i := range item.Or {
		item.Or[i] = Multiply(item.Or[i], factor)
	}
	return item
}

func multiplyAmount(a grammar.Amount, factor *big.Rat) grammar.Amount {
	a.Terms = slices.Clone(a.Terms)
	for i := range a.Terms {
		a.Terms[i].Quantity = a.Terms[i].Quantity.Times(factor)
	}
	a.Same = slices.Clone(a.Same)
	for i := range a.Same {
		a.Same[i] = multiplyAmount(a.Same[i], factor)
	}
	return a
}
