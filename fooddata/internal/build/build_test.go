package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestUpToDate builds the table and compares it with the one in the package,
// byte for byte.
func TestUpToDate(t *testing.T) {
	source := os.Getenv("POTTLE_SR28")
	if source == "" {
		source = filepath.FromSlash("../../../../shared/data/sr28")
	}
	foods, err := readSource(source)
	if err != nil {
		t.Skipf("%v: set POTTLE_SR28 to the folder that holds food.csv.gz, nutrient.csv and portion.csv of Release 28", err)
	}
	var faults faults
	kept := apply(foods, filepath.FromSlash("../../list"), &faults)
	check(kept, &faults)
	for _, f := range faults {
		t.Error(f)
	}
	table, err := assemble(kept)
	if err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string][]byte{"../../table.bin": table, "../../testdata/energy_outliers.tsv": energyOutliers(kept)} {
		got, err := os.ReadFile(filepath.FromSlash(path))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s is not what the lists and the source give: run go generate ./fooddata", filepath.Base(path))
		}
	}
}

// list writes a list into a new folder and returns its path.
func list(t *testing.T, dir, name, content string) string {
	t.Helper()
	path := filepath.Join(dir, name)
	if err := os.WriteFile(path, []byte(content), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// wantFaults checks that each fault holds one of the texts, in order.
func wantFaults(t *testing.T, got faults, want ...string) {
	t.Helper()
	for i := range max(len(got), len(want)) {
		switch {
		case i >= len(got):
			t.Errorf("no fault %q", want[i])
		case i >= len(want):
			t.Errorf("fault %q, want none", got[i])
		case !strings.Contains(got[i], want[i]):
			t.Errorf("fault %q, want %q in it", got[i], want[i])
		}
	}
}

func sampleFoods() (all []*food, byNumber map[string]*food) {
	all = []*food{
		{number: "01001", group: "Dairy", description: "Butter, salted"},
		{number: "01145", group: "Dairy", description: "Butter, without salt"},
		{number: "11529", group: "Vegetables", description: "Tomatoes, raw"},
	}
	byNumber = make(map[string]*food)
	for _, f := range all {
		byNumber[f.number] = f
	}
	return all, byNumber
}

func TestReadNames(t *testing.T) {
	_, byNumber := sampleFoods()
	dir := t.TempDir()
	list(t, dir, "names_a.tsv", "# heading\n"+
		"01001\tsalted butter\tbutter*; Butter~\tbutter\n"+
		"01145\tunsalted butter\tsweet butter; salted butters\tbutter\n"+
		"99999\tnothing\t\t-\n")
	list(t, dir, "names_b.tsv", "01001\tbutter again\t\t-\n"+
		"11529\ttomato\ttomatoes*; &\t-\n"+
		"11529\tonly three\t-\n")
	var got faults
	readNames(dir, byNumber, &got)
	wantFaults(t, got,
		"names_b.tsv:3: 3 columns, want 4",
		`names_a.tsv:3: name "salted butters" is claimed by 01001`,
		`names_a.tsv:4: unknown number "99999"`,
		"names_b.tsv:1: 01001 has its row already",
		`names_b.tsv:2: "tomatoes*" leaves open which food`,
		`names_b.tsv:2: name " &" has no words`,
	)
	for _, n := range byNumber["01001"].names {
		if n.key == "butter" && (!n.open || !n.standIn) {
			t.Errorf("butter is %+v, want both marks", n)
		}
	}
}

func TestReadOwnPortions(t *testing.T) {
	_, byNumber := sampleFoods()
	byNumber["01001"].portions = []portion{{measure: "cup"}}
	dir := t.TempDir()
	list(t, dir, "portions_a.tsv", "01001\t1\tstick\t113.4\tSR28 of 01145\n"+
		"01001\t0\tstick\t113.4\tx\n"+
		"01001\t1\tstick\t0\tx\n"+
		"01001\t1\tstick\t-5\tx\n"+
		"99999\t1\tstick\t5\tx\n"+
		"01145\t1\tstick\t5\t\n")
	var got faults
	readOwnPortions(dir, byNumber, &got)
	wantFaults(t, got, `:2: amount "0"`, `:3: grams "0"`, `:4: grams "-5"`, `:5: unknown number`, ":6: no source")
	p := byNumber["01001"].portions
	if len(p) != 2 || p[0] != (portion{amount: 1000, grams: 113400, measure: "stick", source: "SR28 of 01145"}) || p[1].measure != "cup" {
		t.Errorf("portions %+v", p)
	}
}

func TestRules(t *testing.T) {
	all, _ := sampleFoods()
	dir := t.TempDir()
	path := list(t, dir, "rules.tsv", "*\t.\tnone\tsource\n"+
		"Dairy\tbutter\tall\tsource\n"+
		"Dairy\t(\tall\tsource\n"+
		"Dairy\ttomato\tall\tsource\n"+
		"*\ttomato\tall\t\n")
	var got faults
	rules := readRules(path, 4, &got)
	for i, want := range []string{"all", "all", "all"} {
		if r := last(rules, all[i]); r == nil || r.rest[0] != want {
			t.Errorf("%s: %+v, want %s", all[i].description, r, want)
		}
	}
	unused(rules, all, &got)
	wantFaults(t, got, "rules.tsv:3: error parsing regexp", "rules.tsv:5: no source", "rules.tsv:4: no food matches")
}
