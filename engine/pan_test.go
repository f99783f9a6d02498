package engine_test

import (
	"encoding/csv"
	"math"
	"math/big"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pottle/engine"
)

func panOf(t testing.TB, words string) engine.Pan {
	t.Helper()
	p, err := engine.ParsePan(words)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

const (
	inch = 2.54        // cm
	cup  = 236.5882365 // mL
)

func TestParsePan(t *testing.T) {
	for _, c := range []struct {
		words, want string
		area        float64 // square inches
		depth       float64 // inches
	}{
		{"8x8", "8 x 8 inch square pan", 64, 2},
		{"8 x 8 inch", "8 x 8 inch square pan", 64, 2},
		{"the 8x8 pan", "8 x 8 inch square pan", 64, 2},
		{"8-inch square", "8 x 8 inch square pan", 64, 2},
		{"9x13", "9 x 13 inch rectangular pan", 117, 2},
		{"9 X 13 INCH", "9 x 13 inch rectangular pan", 117, 2},
		{"13 × 9 × 2", "9 x 13 inch rectangular pan", 117, 2},
		{"9-by-13-inch", "9 x 13 inch rectangular pan", 117, 2},
		{`9" x 13" x 3"`, "9 x 13 inch rectangular pan", 117, 3},
		{"11x7", "7 x 11 inch rectangular pan", 77, 2},
		{"23 x 33 cm", "23 x 33 cm rectangular pan", 23 * 33 / inch / inch, 2},
		{"20x30", "20 x 30 cm rectangular pan", 20 * 30 / inch / inch, 2},
		{"230 x 330 mm", "23 x 33 cm rectangular pan", 23 * 33 / inch / inch, 2},
		{"9-inch round", "9 inch round pan", math.Pi * 81 / 4, 2},
		{"9x1.5 round", "9 inch round pan", math.Pi * 81 / 4, 1.5},
		{"9 inch round, 3 inches deep", "9 inch round pan", math.Pi * 81 / 4, 3},
		{"23 cm round", "23 cm round pan", math.Pi * 23 * 23 / 4 / inch / inch, 2},
		{"two 8-inch rounds", "two 8 inch round pans", math.Pi * 64 / 2, 2},
		{"2 9-inch round pans", "two 9 inch round pans", math.Pi * 81 / 2, 2},
		{"2 x 20 cm round tins", "two 20 cm round pans", math.Pi * 200 / inch / inch, 2},
		{"loaf pan", "9 x 5 inch loaf pan", 45, 3},
		{"9x5 loaf", "9 x 5 inch loaf pan", 45, 3},
		{"9 inch loaf", "9 x 5 inch loaf pan", 45, 3},
		{"8½ x 4½ inch loaf pan", "8 1/2 x 4 1/2 inch loaf pan", 38.25, 2.5},
		{"2 lb loaf tin", "9 x 5 inch loaf pan", 45, 3},
		{"900g loaf tin", "9 x 5 inch loaf pan", 45, 3},
		{"two 9x5 loaf pans", "two 9 x 5 inch loaf pans", 90, 3},
		{"springform", "9 inch springform pan", math.Pi * 81 / 4, 2.5},
		{"26 cm springform tin", "26 cm springform pan", math.Pi * 26 * 26 / 4 / inch / inch, 2.5},
		{"9-inch pie plate", "9 inch pie pan", math.Pi * 81 / 4, 1.25},
		{"9-inch deep dish pie", "9 inch pie pan", math.Pi * 81 / 4, 2},
		{"jelly roll pan", "10 x 15 inch sheet pan", 150, 1},
		{"10x15", "10 x 15 inch rectangular pan", 150, 1},
		{"half sheet pan", "13 x 18 inch sheet pan", 234, 1},
		{"18x13", "13 x 18 inch sheet pan", 234, 1},
		{"12 muffin cups", "12 muffin cups", 12 * math.Pi * 2.75 * 2.75 / 4, 1.5},
		{"12-cup muffin tin", "12 muffin cups", 12 * math.Pi * 2.75 * 2.75 / 4, 1.5},
		{"two 12-cup muffin tins", "24 muffin cups", 24 * math.Pi * 2.75 * 2.75 / 4, 1.5},
		{"muffin tin", "12 muffin cups", 12 * math.Pi * 2.75 * 2.75 / 4, 1.5},
		{"24 mini muffins", "24 mini muffin cups", 24 * math.Pi * 1.75 * 1.75 / 4, 0.75},
		{"6 jumbo muffin cups", "6 jumbo muffin cups", 6 * math.Pi * 3.5 * 3.5 / 4, 1.75},
		{"bundt pan", "12-cup fluted ring pan", 12 * cup / 3.5 / inch / inch / inch, 3.5},
		{"10-inch Bundt pan", "12-cup fluted ring pan", 12 * cup / 3.5 / inch / inch / inch, 3.5},
		{"12 cup fluted ring", "12-cup fluted ring pan", 12 * cup / 3.5 / inch / inch / inch, 3.5},
		{"10-cup ring", "10-cup fluted ring pan", 10 * cup / 3.5 / inch / inch / inch, 3.5},
		{"10-inch tube pan", "16-cup tube pan", 16 * cup / 4 / inch / inch / inch, 4},
	} {
		p, err := engine.ParsePan(c.words)
		if err != nil {
			t.Errorf("%s: %v", c.words, err)
			continue
		}
		depth, _ := p.Depth.Float64()
		if p.String() != c.want || math.Abs(p.Area()/inch/inch/c.area-1) > 1e-9 || math.Abs(depth/inch-c.depth) > 1e-9 {
			t.Errorf("%s: %s, %.3f square inches, %.2f deep; want %s, %.3f, %.2f", c.words, p, p.Area()/inch/inch, depth/inch, c.want, c.area, c.depth)
		}
	}
}

func TestParsePanErrors(t *testing.T) {
	for _, c := range []struct{ words, want string }{
		{"", `no pan is named: say it like "8x8" or "9-inch round"`},
		{"a bucket", `"a bucket" is no pan that is known here: say it like "8x8" or "9-inch round"`},
		{"pan", `"pan": how large is it? Say its sides, like "9 x 13 inch", or its shape, like "9-inch round"`},
		{"square pan", `"square pan": how large is it? Say it like "8 x 8 inch"`},
		{"9 inch", `"9 inch": is it round or square? Say "9 inch round" or "9 inch square"`},
		{"2 quart dish", `"2 quart dish": how large are its sides? Say it like "9 x 13 inch"`},
		{"-8x8", `"-8x8": a pan's size must be above zero`},
		{"0x8", `"0x8": a pan's size must be above zero`},
		{"1/0 x 8", `"1/0 x 8": a pan's size must be above zero`},
		{"900 inch round", `"900 inch round": a pan of 2286 cm is none that is baked in here: 4 to 100 cm (1 1/2 to 39 inches) is`},
		{"8 x 8 x 99", `"8 x 8 x 99": a pan 99 cm deep is none that is baked in here: 1 to 30 cm (1/2 to 12 inches) is`},
		{"2 x 9 x 5 loaf", `"2 x 9 x 5 loaf": say the depth last, like "9 x 13 x 2", or the number in words, like "two 9x5 loaf pans"`},
		{"3x3x3x3", `"3x3x3x3": too many sizes for a square pan; several pans are said like "two 9x5 loaf pans"`},
		{"9x13 round", `"9x13 round": a round pan has one size and a depth, like "9-inch round"`},
		{"8x8 to 9x13", `"8x8 to 9x13": name one pan, like "9 x 13 inch"`},
		{"500 muffin cups", `"500 muffin cups": the number of muffin cups must be a whole one from 1 to 240`},
		{"0 muffin cups", `"0 muffin cups": the number of muffin cups must be a whole one from 1 to 240`},
		{strings.Repeat("8", 200), `that is too long for a pan: say it like "9 x 13 inch"`},
	} {
		if p, err := engine.ParsePan(c.words); err == nil || err.Error() != c.want {
			t.Errorf("%s: %s, %v; want %s", c.words, p, err, c.want)
		}
	}
	if _, err := engine.FitPan(engine.Pan{}, panOf(t, "8x8")); err == nil {
		t.Error("no pan to go from: no error")
	}
}

var (
	areaNoted   = regexp.MustCompile(`area ([\d.]+) in2`)
	volumeNoted = regexp.MustCompile(`geometric ([\d.]+) cups`)
	firstNumber = regexp.MustCompile(`^[\d.]+`)
)

// TestPublishedPans holds areas, volumes and capacities against the rows of
// /work/shared/standards/kitchen.csv, each of which names its source: the easy
// pan substitutions of studylib.net 18320804, the News-Journal's table of pan
// volumes of 27 September 2016, and handbook and extension charts from memory.
// Areas and volumes by geometry agree to the last digit noted; published
// capacities are 0.7 to 1.0 of them, since tables round and stop below the
// brim. One row is out of that band in its table (11x7x2, 6 cups) and is taken
// from the other charts that it names.
func TestPublishedPans(t *testing.T) {
	file, err := os.Open("../../shared/standards/kitchen.csv")
	if err != nil {
		t.Skipf("the table of standards is not here: %v", err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, row := range rows {
		item, value, note := row[1], row[2], row[6]
		if row[0] != "pan" || strings.HasPrefix(item, "scaling rule") {
			continue
		}
		item, _, _ = strings.Cut(item, ",") // "12-cup muffin tin, 2.75x1.5 cups"
		p, err := engine.ParsePan(item)
		if err != nil {
			t.Errorf("%s: %v", item, err)
			continue
		}
		checked++
		if m := areaNoted.FindStringSubmatch(note); m != nil {
			want, _ := strconv.ParseFloat(m[1], 64)
			if got := p.Area() / inch / inch; math.Abs(got-want) > 0.051 {
				t.Errorf("%s: %.2f square inches, %s noted", item, got, m[1])
			}
		}
		if m := volumeNoted.FindStringSubmatch(note); m != nil {
			want, _ := strconv.ParseFloat(m[1], 64)
			if got := p.Volume() / cup; math.Abs(got-want) > 0.051 {
				t.Errorf("%s: %.2f cups by geometry, %s noted", item, got, m[1])
			}
		}
		want, _ := strconv.ParseFloat(firstNumber.FindString(value), 64)
		if item == "11x7x2" {
			want = 8
		}
		capacity, source, ok := p.Capacity()
		if !ok || source == "" || math.Abs(capacity/cup-want) > 1e-9 {
			t.Errorf("%s: holds %.2f cups by %q, published %g", item, capacity/cup, source, want)
		}
		if share := capacity / p.Volume(); share < 0.7 || share > 1.0001 {
			t.Errorf("%s: published %.2f of the volume by geometry", item, share)
		}
	}
	if checked < 19 {
		t.Errorf("only %d published pans checked", checked)
	}
}

// TestFitPan holds factors worked out by hand, exact where the numbers allow.
func TestFitPan(t *testing.T) {
	for _, c := range []struct {
		from, to         string
		volume, area     string
		exact            bool
		factor           string
		deeper, byVolume float64 // per cent
	}{
		{"8x8", "9x13", "117/64", "117/64", true, "117/64", -45.30, 0},
		{"9x13", "8x8", "64/117", "64/117", true, "64/117", 82.81, 0},
		{"8x8", "8x8", "1", "1", true, "1", 0, 0},
		{"9-inch round", "8-inch round", "64/81", "64/81", true, "64/81", 26.56, 0},
		{"two 9-inch rounds", "three 8-inch rounds", "32/27", "32/27", true, "32/27", -15.63, 0},
		{"9x1.5 round", "9x2 round", "4/3", "1", true, "1", 0, 33.33},
		{"9x2 round", "9x1.5 round", "3/4", "1", true, "3/4", 0, -25},
		{"20 cm square", "8x8", "16129/15625", "16129/15625", true, "16129/15625", -3.13, 0},
		{"8x8", "9-inch round", "28755/28928", "28755/28928", false, "28755/28928", 0.60, 0}, // pi 355/113
		{"9x13", "10x15", "25/39", "50/39", true, "25/39", -22, -50},
		{"9x5 loaf", "8.5x4.5 loaf", "3/4", "17/20", false, "3/4", 17.65, -11.76}, // published: 6 of 8 cups
		{"8x8", "9x5 loaf", "1", "45/64", false, "1", 42.22, 42.22},               // published: 8 cups each
		{"9x5 loaf", "12 muffin cups", "3/4", "", false, "3/4", 0, 0},             // published: 6 of 8 cups
		{"9x13", "12-cup bundt", "6/7", "", false, "6/7", 0, 0},                   // published: 12 of 14 cups
		{"9-inch pie", "10-inch pie", "100/81", "100/81", true, "100/81", -19, 0},
	} {
		f, err := engine.FitPan(panOf(t, c.from), panOf(t, c.to))
		if err != nil {
			t.Errorf("%s to %s: %v", c.from, c.to, err)
			continue
		}
		if f.ByVolume.RatString() != c.volume || c.area != "" && f.ByArea.RatString() != c.area || f.Exact != c.exact || f.Factor().RatString() != c.factor {
			t.Errorf("%s to %s: by volume %s, by area %s, exact %t, factor %s; want %s, %s, %t, %s", c.from, c.to,
				f.ByVolume.RatString(), f.ByArea.RatString(), f.Exact, f.Factor().RatString(), c.volume, c.area, c.exact, c.factor)
		}
		if c.area != "" && (math.Abs(f.Deeper-c.deeper) > 0.01 || math.Abs(f.DeeperByVolume-c.byVolume) > 0.01) {
			t.Errorf("%s to %s: %.2f %% deeper, by volume %.2f %%; want %.2f, %.2f", c.from, c.to, f.Deeper, f.DeeperByVolume, c.deeper, c.byVolume)
		}
	}
}

// TestFitPanBack holds that there and back is no change, for every two pans.
func TestFitPanBack(t *testing.T) {
	pans := []string{"8x8", "9x13", "11x7", "9-inch round", "26 cm springform", "loaf pan", "8.5x4.5 loaf", "pie plate", "bundt", "tube pan", "12 muffin cups", "10x15"}
	for _, a := range pans {
		for _, b := range pans {
			there, err1 := engine.FitPan(panOf(t, a), panOf(t, b))
			back, err2 := engine.FitPan(panOf(t, b), panOf(t, a))
			if err1 != nil || err2 != nil {
				t.Fatal(err1, err2)
			}
			volume := new(big.Rat).Mul(there.ByVolume, back.ByVolume)
			area := new(big.Rat).Mul(there.ByArea, back.ByArea)
			if volume.RatString() != "1" || area.RatString() != "1" {
				t.Errorf("%s to %s and back: by volume %s, by area %s", a, b, volume, area)
			}
		}
	}
}

func TestFitPanNotes(t *testing.T) {
	for _, c := range []struct {
		from, to string
		want     []string // each in some note
		not      string   // in none; may be empty
	}{
		{"8x8", "9x13", []string{"unchanged, the mixture stands 45 % shallower", "half of the time", "scaled, the mixture stands about as deep"}, "deeper"},
		{"9x13", "8x8", []string{"unchanged, the mixture stands 83 % deeper", "25 °F (15 °C) cooler", "fills the new pan 83 % more", "scaled, the mixture stands about as deep"}, "shallower"},
		{"8x8x2", "9-inch round x 2", []string{"about as deep"}, "scaled"},
		{"8x8", "9x5 loaf", []string{"42 % deeper", "its sides slope"}, "scaled"},
		{"9x5 loaf", "12 muffin cups", []string{"fills 12 to 16 such muffin cups", "look from 15 minutes on"}, "deeper"},
		{"12 muffin cups", "9x5 loaf", []string{"two to three times as long"}, ""},
		{"8x8", "9x13", []string{"8 x 8 inch square pan: taken as 2 inches (5.1 cm) deep"}, ""},
		{"8x8x2", "9x13x2", nil, "taken as"},
	} {
		from := panOf(t, strings.Replace(c.from, " x 2", "", 1))
		to := panOf(t, strings.Replace(c.to, " x 2", "", 1))
		f, err := engine.FitPan(from, to)
		if err != nil {
			t.Fatal(err)
		}
		for _, want := range c.want {
			if !slices.ContainsFunc(f.Notes, func(n string) bool { return strings.Contains(n, want) }) {
				t.Errorf("%s to %s: no note says %q: %q", c.from, c.to, want, f.Notes)
			}
		}
		if c.not != "" && slices.ContainsFunc(f.Notes, func(n string) bool { return strings.Contains(n, c.not) }) {
			t.Errorf("%s to %s: a note says %q: %q", c.from, c.to, c.not, f.Notes)
		}
	}
}

// FuzzParsePan holds that any words give a pan that can be reckoned with, or
// an error that says something.
func FuzzParsePan(f *testing.F) {
	for _, words := range []string{"8x8", "9 x 13 inch", "two 8-inch rounds", "12-cup ring", "900g loaf tin", "2 x 20 cm round", "12 muffin cups", "1/0x8", "9\" x 13\"", "8½ loaf", "0 cup bundt", "# x 9", "99999999999999999999 cup ring", "1e9x8", ".5x.5"} {
		f.Add(words)
	}
	f.Fuzz(func(t *testing.T, words string) {
		p, err := engine.ParsePan(words)
		if err != nil {
			if err.Error() == "" {
				t.Error("an empty error")
			}
			return
		}
		if !(p.Area() > 0 && p.Volume() > 0) || math.IsInf(p.Area(), 0) || p.String() == "" {
			t.Errorf("%q: %s, area %g, volume %g", words, p, p.Area(), p.Volume())
		}
		to, _ := engine.ParsePan("9x13")
		if fit, err := engine.FitPan(p, to); err != nil || fit.Factor().Sign() <= 0 {
			t.Errorf("%q to 9x13: %v, %v", words, fit, err)
		}
	})
}
