package engine

import "math/big"

// pastedShares returns for each line of the recipe as pasted how much of it is
// left, by its number: 2/3 of a line that was cut by a third. What was done to
// all of the recipe alike, as by scaling, is taken out: what most lines share is 1.
func pastedShares(now, original *Analysis) map[int]float64 {
	was := make(map[int]*Line)
	for i := range original.Lines {
		l := &original.Lines[i]
		if _, twice := was[l.Number]; twice {
			was[l.Number] = nil // several foods on a line
			continue
		}
		was[l.Number] = l
	}
	left := make(map[int]float64)
	var all []float64
	for i := range now.Lines {
		l := &now.Lines[i]
		if o := was[l.Number]; o != nil && o.Food == l.Food && o.Status == Counted && l.Status == Counted && o.Grams.Low > 0 {
			left[l.Number] = l.Grams.Low / o.Grams.Low
			all = append(all, left[l.Number])
		}
	}
	scale, most := 1.0, 0
	for _, share := range all {
		alike := 0
		for _, other := range all {
			if other >= share*(1-offMeasure) && other <= share*(1+offMeasure) {
				alike++
			}
		}
		if alike > most || alike == most && share > scale {
			scale, most = share, alike
		}
	}
	for n := range left {
		left[n] /= scale
	}
	return left
}

// ofPasted turns a share of the line as pasted into one of the line as it is.
// Where a rule's limit is not reckoned in grams of the line, the share is the
// limit. ok is false if so much is done already.
func (c *cutter) ofPasted(rule cutRule, p spot, share *big.Rat) (*big.Rat, bool) {
	left, known := c.pasted[p.got.Number]
	if !known || left >= 1-offMeasure || left <= 0 || share.Cmp(wholeShare) == 0 || rule.floor.per == "serving" || rule.floor.per == "recipe" {
		return share, true
	}
	part := ratio(share)
	switch rule.change.kind {
	case doTake:
		part /= left
		if part > 1-offMeasure {
			return nil, false
		}
	case doSwap:
		part = 1 - (1-part)/left
		if part < offMeasure {
			return nil, false
		}
	}
	return new(big.Rat).SetFloat64(part), true
}
