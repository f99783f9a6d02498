package engine

import (
	"errors"
	"fmt"
	"math"
	"math/big"
)

// PanFit is how a recipe for one pan goes into another.
type PanFit struct {
	From, To Pan
	// ByVolume is the factor that fills To as full as From, ByArea the one by
	// which the mixture stands as deep in it.
	ByVolume, ByArea *big.Rat
	// Exact is false if pi or a published capacity came into ByVolume or ByArea.
	Exact bool
	// Deeper is by how much, in per cent, the mixture stands deeper if the
	// recipe is not changed; below zero it stands shallower. DeeperByVolume is
	// the same for a recipe scaled ByVolume.
	Deeper, DeeperByVolume float64
	Notes                  []string
}

// Factor is the one of ByArea and ByVolume to scale by: for pans with upright
// sides the one by which the mixture stands no deeper and the pan is no fuller,
// so that time and temperature hold as nearly as may be; for all others
// ByVolume.
func (f PanFit) Factor() *big.Rat {
	if f.From.Shape.straight() && f.To.Shape.straight() && f.ByArea.Cmp(f.ByVolume) < 0 {
		return f.ByArea
	}
	return f.ByVolume
}

// FitPan compares two pans. Between pans with upright sides both factors are
// by geometry; where a loaf, pie, ring, tube or muffin pan comes in, ByVolume
// is by published capacities, of a pan that no table lists by geometry less
// the usual share. For muffin cups ByArea tells little. It returns an error if
// a pan is not given.
func FitPan(from, to Pan) (PanFit, error) {
	if !from.known() || !to.known() {
		return PanFit{}, errors.New("two pans are needed, such as 8x8 and 9x13")
	}
	f := PanFit{From: from, To: to}
	fromArea, fromPi := from.area()
	toArea, toPi := to.area()
	f.ByArea = panRatio(toArea, toPi, fromArea, fromPi)
	f.Exact = fromPi == toPi && from.Shape != PanRing && from.Shape != PanTube && to.Shape != PanRing && to.Shape != PanTube
	alike := from.Shape == to.Shape && (from.Cups == nil || to.Cups == nil)
	if from.Shape.straight() && to.Shape.straight() || alike {
		fromVolume, fromPi := from.volume()
		toVolume, toPi := to.volume()
		f.ByVolume = panRatio(toVolume, toPi, fromVolume, fromPi)
	} else {
		fromVolume, fromPi := from.holds()
		toVolume, toPi := to.holds()
		f.ByVolume = panRatio(toVolume, toPi, fromVolume, fromPi)
		f.Exact = false
	}
	f.Deeper = 100 * (1/ratio(f.ByArea) - 1)
	f.DeeperByVolume = 100 * (ratio(f.ByVolume)/ratio(f.ByArea) - 1)
	f.warn()
	return f, nil
}

// The notes on time and temperature are common practice, no source.

// sameDepth is the change of depth, in per cent, below which a recipe bakes as
// written.
const sameDepth = 10

func (f *PanFit) warn() {
	note := func(format string, args ...any) { f.Notes = append(f.Notes, fmt.Sprintf(format, args...)) }
	for _, p := range []Pan{f.From, f.To} {
		f.Notes = append(f.Notes, p.Assumed...)
	}
	if f.To.Shape == PanMuffin {
		if one, pi := f.To.holds(); f.From.Shape != PanMuffin {
			one.Quo(one, big.NewRat(int64(f.To.Count), 1))
			all, fromPi := f.From.holds()
			n := ratio(panRatio(all, fromPi, one, pi))
			note("unchanged, the recipe fills %.0f to %.0f such muffin cups, by how full the old pan was", math.Round(0.75*n), math.Round(n))
			note("muffin cups bake fast: look from 15 minutes on, usually done in 18 to 25 (mini ones in 10 to 15)")
		}
		return
	}
	unchanged := f.Deeper
	note("unchanged, %s", depthNote(unchanged))
	if fuller := 100 * (1/ratio(f.ByVolume) - 1); fuller > 15 {
		note("unchanged, it fills the new pan %.0f %% more than the old: fill no pan above two thirds and bake the rest in another", fuller)
	}
	if scaled := f.scaledDepth(); math.Abs(scaled-unchanged) >= 1 && (math.Abs(unchanged) >= sameDepth || math.Abs(scaled) >= sameDepth) {
		note("scaled, %s", depthNote(scaled))
	}
	if f.From.Shape == PanMuffin {
		note("what is baked in muffin cups takes two to three times as long in one pan; test the middle")
	}
	if f.To.Shape == PanLoaf || f.To.Shape == PanPie {
		note("its sides slope, so the mixture stands a little deeper than reckoned here")
	}
}

// scaledDepth is how much deeper, in per cent, the mixture stands in To if the
// recipe is scaled by Factor.
func (f PanFit) scaledDepth() float64 { return 100 * (ratio(f.Factor())/ratio(f.ByArea) - 1) }

// depthNote says what a change of depth in per cent does.
func depthNote(percent float64) string {
	size := math.Round(math.Abs(percent))
	switch {
	case size < sameDepth:
		return "the mixture stands about as deep: time and temperature as written, look a few minutes early"
	case percent > 50:
		return fmt.Sprintf("the mixture stands %.0f %% deeper: it may take twice as long; 25 °F (15 °C) cooler keeps the outside from browning before the middle is done", size)
	case percent > 0:
		return fmt.Sprintf("the mixture stands %.0f %% deeper: it takes longer, up to half as long again; look at the time written, then every 5 minutes; from a quarter deeper 25 °F (15 °C) cooler helps", size)
	case percent < -35:
		return fmt.Sprintf("the mixture stands %.0f %% shallower: look after about half of the time; it browns and dries sooner", size)
	}
	return fmt.Sprintf("the mixture stands %.0f %% shallower: look after about two thirds of the time; it dries sooner", size)
}
