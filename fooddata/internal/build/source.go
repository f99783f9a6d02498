package main

import (
	"cmp"
	"compress/gzip"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"pottle/fooddata"
)

// food is a food of the source with what the lists say of it.
type food struct {
	number      string
	group       string
	description string
	common      string // other names that the source gives
	refuse      int    // per cent
	refuseWhat  string
	figures     [fooddata.NumNutrients]figure
	factors     [3]string // energy per gram of protein, fat, carbohydrate; "" if not given
	portions    []portion

	name         string
	curated      bool
	names        []name // curated ones, the display name among them
	family       string
	state        fooddata.State
	cannedLiquid bool
	addedBasis   string
	contains     uint16
	may          uint16
	density      int // mg per mL
	densityLike  string
}

// figure is a value times 10 to the decimals of its nutrient; AddedSugars has
// addedDecimals.
type figure struct {
	scaled uint32
	ok     bool
}

// value returns f for a nutrient in its unit.
func (f *food) value(n fooddata.Nutrient) (float64, bool) {
	v, ok := f.figures[n].scaled, f.figures[n].ok
	x := float64(v)
	for range n.Decimals() {
		x /= 10
	}
	return x, ok
}

// brandWord finds a brand in a description: Release 28 writes brands in capitals.
var brandWord = regexp.MustCompile(`\b[A-Z][A-Z'&.-]*[A-Z]{2,}\b|M&M|Campbell`)

// notBrands are words in capitals that are none.
var notBrands = strings.NewReplacer("USDA", "", "NFS", "", "UPC", "", "NLEA", "")

// shownDescription is the USDA description, or our display name where the
// description names a brand.
func (f *food) shownDescription() string {
	if brandWord.MatchString(notBrands.Replace(f.description)) {
		return f.name
	}
	return f.description
}

type portion struct {
	amount, grams                 int // thousandths
	measure, size, detail, source string
}

// readSource returns all foods of the source, by number.
func readSource(dir string) ([]*food, error) {
	if err := checkNutrients(filepath.Join(dir, "nutrient.csv")); err != nil {
		return nil, err
	}
	file, err := os.Open(filepath.Join(dir, "food.csv.gz"))
	if err != nil {
		return nil, fmt.Errorf("%w (set -source or POTTLE_SR28 to the folder with the Release 28 files)", err)
	}
	defer file.Close()
	plain, err := gzip.NewReader(file)
	if err != nil {
		return nil, err
	}
	var foods []*food
	byNumber := make(map[string]*food)
	err = eachRow(plain, func(row map[string]string) error {
		f, err := readFood(row)
		if err != nil {
			return fmt.Errorf("food %s: %w", row["ndb_no"], err)
		}
		if byNumber[f.number] != nil {
			return fmt.Errorf("food %s stands twice", f.number)
		}
		byNumber[f.number] = f
		foods = append(foods, f)
		return nil
	})
	if err != nil {
		return nil, err
	}
	slices.SortFunc(foods, func(a, b *food) int { return cmp.Compare(a.number, b.number) })
	return foods, readPortions(filepath.Join(dir, "portion.csv"), byNumber)
}

// checkNutrients makes sure that our nutrients are those of the source.
func checkNutrients(path string) error {
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	next := fooddata.Nutrient(0)
	err = eachRow(file, func(row map[string]string) error {
		if int(next) >= fooddata.NumNutrients || row["tagname"] != next.Tag() || row["unit"] != next.Unit() ||
			row["decimals"] != strconv.Itoa(next.Decimals()) {
			return fmt.Errorf("nutrient.csv: %s (%s, %s decimals) is not our nutrient %d", row["tagname"], row["unit"], row["decimals"], next)
		}
		next++
		return nil
	})
	if err == nil && next != fooddata.AddedSugars {
		err = fmt.Errorf("nutrient.csv: %d nutrients, want %d", next, fooddata.AddedSugars)
	}
	return err
}

func readFood(row map[string]string) (*food, error) {
	f := &food{
		number:      row["ndb_no"],
		group:       row["group"],
		description: row["description"],
		common:      row["common_name"],
		refuseWhat:  row["refuse"],
		factors:     [3]string{row["pro_factor"], row["fat_factor"], row["cho_factor"]},
	}
	if len(f.number) != 5 {
		return nil, errors.New("number does not have five digits")
	}
	if s := row["refuse_pct"]; s != "" {
		var err error
		if f.refuse, err = strconv.Atoi(s); err != nil || f.refuse < 0 || f.refuse > 99 {
			return nil, fmt.Errorf("refuse %q", s)
		}
	}
	for n := fooddata.Nutrient(0); n < fooddata.AddedSugars; n++ {
		s := row[n.Tag()]
		if s == "" {
			continue
		}
		v, err := scaled(s, n.Decimals())
		if err != nil {
			return nil, fmt.Errorf("%s: %w", n.Tag(), err)
		}
		f.figures[n] = figure{uint32(v), true}
	}
	return f, nil
}

func readPortions(path string, byNumber map[string]*food) error {
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	return eachRow(file, func(row map[string]string) error {
		f := byNumber[row["ndb_no"]]
		if f == nil {
			return fmt.Errorf("portion of unknown food %q", row["ndb_no"])
		}
		amount, err := scaled(row["amount"], 3)
		if err != nil {
			return fmt.Errorf("portion of %s: %w", f.number, err)
		}
		grams, err := scaled(row["grams"], 3)
		if err != nil {
			return fmt.Errorf("portion of %s: %w", f.number, err)
		}
		if amount > 0 && grams > 0 {
			f.portions = append(f.portions, readMeasure(f.description, row["measure"], amount, grams)...)
		}
		return nil
	})
}

// eachRow calls read for each row of a CSV file with headings.
func eachRow(r io.Reader, read func(row map[string]string) error) error {
	rows := csv.NewReader(r)
	heads, err := rows.Read()
	if err != nil {
		return err
	}
	for {
		cells, err := rows.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
		row := make(map[string]string, len(heads))
		for i, h := range heads {
			row[h] = strings.TrimSpace(cells[i])
		}
		if err := read(row); err != nil {
			return err
		}
	}
}

// scaled reads a decimal number exactly: scaled("1.25", 3) is 1250.
func scaled(s string, decimals int) (int, error) {
	whole, part, _ := strings.Cut(s, ".")
	if len(part) > decimals {
		if strings.Trim(part[decimals:], "0") != "" {
			return 0, fmt.Errorf("%q has more than %d decimals", s, decimals)
		}
		part = part[:decimals]
	}
	v, err := strconv.ParseUint(whole+part+strings.Repeat("0", decimals-len(part)), 10, 31)
	if err != nil {
		return 0, fmt.Errorf("%q is no number of 0 or more", s)
	}
	return int(v), nil
}
