package main

import "testing"

func TestReadMeasure(t *testing.T) {
	for _, tc := range []struct {
		description, text string
		want              []portion // amounts of 1 and grams of 100 unless said otherwise
	}{
		{"Butter, salted", "cup", []portion{{measure: "cup"}}},
		{"Butter, salted", `pat (1" sq, 1/3" high)`, []portion{{measure: "pat", detail: `1" sq, 1/3" high`}}},
		{"Sauce", "Tbsp", []portion{{measure: "tbsp"}}},
		{"Peppers, sweet, green", "tablespoon, chopped", []portion{{measure: "tbsp", detail: "chopped"}}},
		{"Onions, raw", "cup, chopped or sliced", []portion{{measure: "cup", detail: "chopped or sliced"}}},
		{"Apples, raw", "cup slices", []portion{{measure: "cup", detail: "slices"}}},
		{"Candies, semisweet chocolate", "cup large chips", []portion{{measure: "cup", detail: "large chips"}}},
		{"Yogurt", "cup (8 fl oz)", []portion{{measure: "cup"}}},
		{"Cereals", "cup (1 NLEA serving)", []portion{{measure: "cup"}}},
		{"Onions, raw", `slice, large (1/4" thick)`, []portion{{measure: "slice", size: "large", detail: `1/4" thick`}}},
		{"Onions, raw", `medium (2-1/2" dia)`, []portion{{measure: "each", size: "medium", detail: `2-1/2" dia`}}},
		{"Egg, whole, raw", "extra large", []portion{{measure: "each", size: "extra large"}}},
		{"Apples, raw", `extra small (2-1/2" dia)`, []portion{{measure: "each", size: "extra small", detail: `2-1/2" dia`}}},
		{"Potatoes, raw", `Potato large (3" to 4-1/4" dia)`, []portion{{measure: "each", size: "large", detail: `potato; 3" to 4-1/4" dia`}}},
		{"Avocados, raw, Florida", "fruit without skin and seeds", []portion{{measure: "each", detail: "fruit; without skin and seeds"}}},
		{"Nuts, almonds", "almond", []portion{{measure: "each", detail: "almond"}}},
		{"Tomatoes, red", "Italian tomato", []portion{{measure: "each", detail: "italian tomato"}}},
		{"Sweet potato, raw", `sweetpotato, 5" long`, []portion{{measure: "each", detail: `sweetpotato; 5" long`}}},
		{"Apricots, canned", "apricot half with liquid", []portion{{measure: "half", detail: "with liquid"}}},
		{"Celery, raw", `stalk, medium (7-1/2" - 8" long)`, []portion{{measure: "stalk", size: "medium", detail: `7-1/2" - 8" long`}}},
		{"Basil, fresh", "leaves", []portion{{measure: "leaf"}}},
		{"Soup", "can (10.75 oz)", []portion{{measure: "can", detail: "10.75 oz"}}},
		{"Raisins, seedless", "miniature box (.5 oz)", []portion{{measure: "box", detail: ".5 oz"}}},
		{"Beverages, water", "bottle bottle 16 fl oz", []portion{{measure: "bottle", detail: "16 fl oz"}}},
		{"Mushrooms, shiitake, raw", "piece whole", []portion{{measure: "each", detail: "piece whole"}}},
		{"Phyllo dough", "sheet dough", []portion{{measure: "sheet", detail: "dough"}}},
		{"Pie, Dutch Apple", `pie 1 pie (1/8 of 9" pie)`, []portion{{measure: "piece", detail: `pie; 1 pie; 1/8 of 9" pie`}}},
		{"Chicken, broilers or fryers, breast", "breast, bone and skin removed", []portion{{measure: "breast", detail: "bone and skin removed"}}},
		{
			"Chicken, broilers or fryers, breast", "unit (yield from 1 lb ready-to-cook chicken)",
			[]portion{{measure: "yield", detail: "unit; from 1 lb ready-to-cook chicken"}},
		},
		{"Salad dressing", "serving (2 tbsp)", []portion{{amount: 2000, measure: "tbsp", detail: "serving"}}},
		{"Ice creams", "serving 1/2 cup", []portion{{grams: 200, measure: "cup", detail: "serving"}}},
		{"Syrups", "serving .25 cup", []portion{{amount: 250, measure: "cup", detail: "serving"}}},
		{"Nuts, walnuts, english", "oz (14 halves)", []portion{{measure: "oz", detail: "14 halves"}, {amount: 14000, measure: "half"}}},
		{"Raisins, seedless", "oz (60 raisins)", []portion{{measure: "oz", detail: "60 raisins"}, {amount: 60000, measure: "each", detail: "raisin"}}},
		{
			"Mollusks, scallop, raw", "unit 2 large or 5 small",
			[]portion{{amount: 2000, measure: "each", size: "large"}, {amount: 5000, measure: "each", size: "small"}},
		},
		{"Cookies, brownies", "package, Little Debbie (twin wrapped)", nil}, // a brand
		{"Cookies, oatmeal", `cookie, big (3-1/2" - 4" dia) (include Archway brand)`, []portion{{measure: "each", detail: `cookie; big; 3-1/2" - 4" dia`}}},
		{"Turkey, slices", `thick slice (approx 3" x 2")`, []portion{{measure: "slice", detail: `thick; approx 3" x 2"`}}},
	} {
		got := readMeasure(tc.description, tc.text, 1000, 100)
		if len(got) != len(tc.want) {
			t.Errorf("%q: %+v, want %+v", tc.text, got, tc.want)
			continue
		}
		for i, want := range tc.want {
			if want.amount == 0 {
				want.amount = 1000
			}
			if want.grams == 0 {
				want.grams = 100
			}
			want.source = "SR28"
			if got[i] != want {
				t.Errorf("%q: %+v, want %+v", tc.text, got[i], want)
			}
		}
	}
}

func TestScaled(t *testing.T) {
	for _, tc := range []struct {
		in       string
		decimals int
		want     int
		ok       bool
	}{
		{"1.25", 3, 1250, true},
		{".5", 3, 500, true},
		{"12", 0, 12, true},
		{"0", 2, 0, true},
		{"1.500", 1, 15, true}, // zeros say nothing
		{"1.55", 1, 0, false},  // would be rounded
		{"-1", 0, 0, false},
		{"", 0, 0, false},
		{"1,5", 1, 0, false},
		{"1e3", 0, 0, false},
		{"99999999999", 0, 0, false},
	} {
		got, err := scaled(tc.in, tc.decimals)
		if (err == nil) != tc.ok || got != tc.want && tc.ok {
			t.Errorf("scaled(%q, %d) = %d, %v, want %d, %t", tc.in, tc.decimals, got, err, tc.want, tc.ok)
		}
	}
}
