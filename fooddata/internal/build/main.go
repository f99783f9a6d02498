// Command build makes table.bin of the food figures in the source folder and
// the lists kept by hand. Run it by go generate ./fooddata, which runs it in the
// folder of the package.
//
// It prints every fault it finds in the lists, and writes nothing if there is
// one. The same input gives the same bytes.
package main

import (
	"cmp"
	"flag"
	"fmt"
	"os"
	"path/filepath"
)

const releaseName = "USDA National Nutrient Database for Standard Reference, Release 28 (2015, slightly revised May 2016)"

func main() {
	source := flag.String("source", cmp.Or(os.Getenv("POTTLE_SR28"), filepath.FromSlash("../../shared/data/sr28")),
		"`folder` with food.csv.gz, nutrient.csv and portion.csv; POTTLE_SR28 sets it too")
	dir := flag.String("package", ".", "`folder` of package fooddata, with list")
	flag.Parse()
	if err := run(*source, *dir); err != nil {
		fmt.Fprintln(os.Stderr, "build:", err)
		os.Exit(1)
	}
}

func run(source, dir string) error {
	foods, err := readSource(source)
	if err != nil {
		return fmt.Errorf("read source: %w", err)
	}
	var faults faults
	kept := apply(foods, filepath.Join(dir, "list"), &faults)
	check(kept, &faults)
	if err := faults.report(os.Stderr); err != nil {
		return err
	}
	table, err := assemble(kept)
	if err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(dir, "testdata", "energy_outliers.tsv"), energyOutliers(kept), 0o644); err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(dir, "table.bin"), table, 0o644); err != nil {
		return err
	}
	summary(os.Stdout, kept, len(table))
	return nil
}
