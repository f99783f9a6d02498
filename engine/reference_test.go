package engine_test

import (
	"fmt"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
)

// TestAskReference holds that no claim by amount passes without a reference
// amount, and that the title's are offered.
func TestAskReference(t *testing.T) {
	a := claimed(12, 1320, amounts{fooddata.Fibre: 300})
	a.Title = "Pecan and pumpkin muffins"
	for _, claim := range []string{"low sodium", "sodium free", "high in fibre", "reduced sodium", "light", "healthy", "97% fat free", "lean", "more fibre"} {
		for _, reference := range []string{"", "flurble"} {
			v := a.MayClaim(engine.ClaimRequest{Claim: claim, Reference: reference, Original: claimed(12, 1320, amounts{fooddata.Sodium: 9000, fooddata.Energy: 2000, fooddata.Fat: 50})})
			if v.Allowed || !v.AskReference || len(v.References) == 0 || v.References[0].Name != "muffins and bagels" {
				t.Errorf("%s without a reference amount: allowed %t, ask %t, offered %v", claim, v.Allowed, v.AskReference, v.References)
			}
			if reference != "" && !strings.Contains(strings.Join(v.Needs, " "), reference) {
				t.Errorf("%s: %q does not say that %q is not known", claim, v.Needs, reference)
			}
		}
	}
}

// TestReferences holds the list of reference amounts together.
func TestReferences(t *testing.T) {
	seen := make(map[string]bool)
	for _, r := range engine.References() {
		if seen[r.Name] {
			t.Errorf("%s is there twice", r.Name)
		}
		seen[r.Name] = true
		if got, ok := engine.ReferenceNamed(r.Name); !ok || got.Name != r.Name {
			t.Errorf("%q names %q, %t", r.Name, got.Name, ok)
		}
		if r.Class != engine.SingleFood {
			continue
		}
		grams := fmt.Sprintf("%g g", r.Grams)
		if (r.Says == grams) != (r.Assumed == "") {
			t.Errorf("%s: %s is %s, assumed %q", r.Name, r.Says, grams, r.Assumed)
		}
		small := r.Says == "2 tbsp" || r.Says == "1 tbsp" || r.Says == grams && r.Grams <= 30
		if r.Small != small {
			t.Errorf("%s, %s: small is %t", r.Name, r.Says, r.Small)
		}
	}
	for words, want := range map[string]string{
		"muffins": "110 g", "muffin": "110 g", "Bran Muffins": "110 g", "soup": "245 g", "lentil soup": "245 g", "bread": "50 g", "banana bread": "55 g", "corn bread": "55 g", "potato salad": "140 g",
		"green salad": "100 g", "salad dressing": "30 g", "chocolate chip cookies": "30 g", "carrot cake": "80 g", "cheesecake": "125 g", "apple pie": "125 g", "beef stew": "1 cup", "hummus": "2 tbsp",
		"55 g": "55 g", "85g": "85 g", "245 grams": "245 g", "sweet potato soup": "245 g", "potato soup with cheese": "245 g", "rice": "140 g", "fried rice": "1 cup", "shepherd's pie": "1 cup", "crab cakes": "85 g",
		"green beans": "85 g", "fish with sauce": "140 g", "chicken pot pie": "1 cup", "honey": "1 tbsp", "ice cream": "2/3 cup", "pancakes": "110 g", "scrambled eggs": "110 g", "yogurt": "170 g",
	} {
		if got, ok := engine.ReferenceNamed(words); !ok || got.Says != want {
			t.Errorf("%q: %s (%s), %t, want %s", words, got.Says, got.Name, ok, want)
		}
	}
	for _, words := range []string{"", "flurble", "0 g", "-5 g", "g", "1e9 g", "NaN g", "Inf g", "chicken and rice", "with"} {
		if got, ok := engine.ReferenceNamed(words); ok {
			t.Errorf("%q: %s, want none", words, got.Name)
		}
	}
	if got := engine.LikelyReferences("Grandma's Lentil Soup"); len(got) == 0 || got[0].Name != "soups" {
		t.Errorf("lentil soup: %v", got)
	}
}
