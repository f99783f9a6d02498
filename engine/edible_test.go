package engine_test

import (
	"math"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/grammar"
)

// TestEdible holds what of a weight as bought is eaten. Shares are SR28's refuse
// of the food, or those of edible.tsv with their sources there.
func TestEdible(t *testing.T) {
	e := newEngine(t)
	const lb = 453.59237
	for _, c := range []struct {
		line  string
		grams float64 // 0 if it is asked about
		note  string  // among what is assumed; "" for no word of bone or shell
	}{
		// In the shell.
		{"2kg mussels, scrubbed and debearded", 500, "75 % taken off for shells"},
		{"2 lb mussels in shell", 0.5 * lb, "75 % taken off for shells"},
		{"1 lb mussel meat", lb, ""},
		{"4 lb littleneck clams", 0.6 * lb, "85 % taken off for shells"},
		{"2 lb steamer clams", 0.6 * lb, "70 % taken off for shells"},
		{"1 lb shucked clams", lb, ""},
		{"2 lobsters (1 1/4 lb each)", 2.5 * lb * 0.22, "78 % taken off for shell"},
		{"4 lobster tails (6 oz each)", 1.5 * lb * 0.64, "36 % taken off for shell"},
		{"1 lb lobster meat", lb, ""},
		{"1 lb crab legs", 0.5 * lb, "50 % taken off for shell"},
		{"1 lb lump crab meat", lb, ""},
		{"1 lb crab", lb, "weight taken as edible; as bought, about 85 %"},
		{"2 lb crawfish", 0.3 * lb, "85 % taken off for shell"},
		{"1 lb oysters in shell", 0.1 * lb, "90 % taken off for shells"},
		{"1 lb shucked oysters", lb, ""},
		{"1 lb shrimp", lb, "weight taken as edible; as bought, about 13 %"},
		{"1 lb shrimp, peeled and deveined", lb, ""},
		{"1 lb shell-on shrimp", 0.87 * lb, "13 % taken off for tail and shell (SR28 15270)"},
		{"1 lb head-on prawns", 0.55 * lb, "45 % taken off for head and shell"},
		{"1 lb shrimp, heads removed", lb, "weight taken as edible; as bought, about 13 %"},
		// Whole fish.
		{"1 lb whole smelts", lb, ""},
		{"1 whole sea bass (1.5 lb), gutted", 1.5 * lb * 0.55, "45 % taken off for head"},
		{"2 lb whole mackerel", 2 * lb * 0.47, "53 % taken off for head"},
		{"2 trout (12 oz each), cleaned", 1.5 * lb * 0.55, "45 % taken off for head"},
		{"4 trout fillets (6 oz each)", 1.5 * lb, ""},
		{"1 lb sea bass fillets", lb, ""},
		{"2 whole trout", 0, ""},
		// On the bone.
		{"1 duck (5 lb)", 5 * lb * 0.72, "28 % taken off for bone"},
		{"1 goose (10 lb)", 10 * lb * 0.81, "19 % taken off for bone"},
		{"12 lb turkey", 12 * lb * 0.59, "41 % taken off for bone"},
		{"2 lb turkey", 2 * lb, "weight taken as edible; as bought, 41 %"},
		{"4 lamb shanks (about 400g each)", 1600 * 0.64, "36 % taken off for bone"},
		{"1 rack of lamb (1 1/2 lb)", 1.5 * lb * 0.75, "25 % taken off for bone"},
		{"2 racks baby back ribs (4 lb)", 4 * lb * 0.63, "37 % taken off for bone"},
		{"3 lb spareribs", 3 * lb * 0.70, "30 % taken off for bone"},
		{"3 lb beef short ribs", 3 * lb * 0.73, "27 % taken off for bone"},
		{"3 lb boneless beef short ribs", 3 * lb, ""},
		{"2 lb T-bone steak", 2 * lb * 0.75, "25 % taken off for bone"},
		{"1 porterhouse steak (2 lb)", 2 * lb * 0.77, "23 % taken off for bone"},
		{"2 lb pork chops", 2 * lb * 0.75, "25 % taken off for bone 14%, connective tissue 11%"},
		{"2 lb boneless pork chops", 2 * lb, ""},
		{"3 lb prime rib", 3 * lb * 0.86, "14 % taken off for bone"},
		{"3 lb chicken legs", 3 * lb * 0.73, "27 % taken off for bone"},
		{"1 leg of lamb (5 lb)", 5 * lb * 0.78, "22 % taken off for bone; if it has none, say \"use boneless leg of lamb\""},
		{"1 leg of lamb (about 2kg)", 1560, "22 % taken off for bone"},
		{"1 boneless leg of lamb (5 lb)", 5 * lb, ""},
		{"5 lb butterflied leg of lamb", 5 * lb, "weight taken as edible; as bought, 22 %"},
		{"2 lb leg of lamb, boned and rolled", 2 * lb, "weight taken as edible; as bought, 22 %"},
		{"2 lb lamb leg, cubed", 2 * lb, "weight taken as edible; as bought, 22 %"},
		{"2 lb chicken thighs", 2 * lb * 0.83, "17 % taken off for bone and cartilage; if it has none, say \"use boneless chicken thighs\""},
		{"8 chicken thighs (2 lb)", 2 * lb * 0.83, "17 % taken off for bone"},
		{"2 lb boneless chicken thighs", 2 * lb, ""},
		{"2 lb skinless chicken thighs", 2 * lb, ""},
		{"2 lb chicken thigh fillets", 2 * lb, ""},
		{"2 lb chicken thigh meat", 2 * lb, ""},
		{"6 oz chicken thighs", 6.0 / 16 * lb, "weight taken as edible; as bought, 17 %"},
		{"1 kg chicken drumsticks", 1000 * 0.67, "taken off for bone"},
		{"2 lb dark meat chicken", 2 * lb, ""},
		{"2 lb bone-in, skin-on chicken thighs", 2 * lb * 0.83, "17 % taken off for bone"},
		{"2 1/2 lb bone-in chicken thighs, skin removed", 2.5 * lb * 0.58, "42 % taken off for bone and cartilage 17%, skin and separable fat 25%"},
		{"2 lb bone-in skinless chicken thighs", 2 * lb * (1 - 17.0/75), "23 % taken off for bone"},
		{"2 lb bone-in skinless chicken breasts", 2 * lb * 0.80, "20 % taken off for bone"},
		{"1.5 kg chicken meat, without skin, bone-in", 720, "52 % taken off for bone 32%, skin 12%, separable fat 8%"},
		{"1 rabbit (3 lb)", 3 * lb * 0.79, "21 % taken off for bone"},
		{"1 lb boneless skinless chicken thighs", lb, ""},
		// On the plate.
		{"3 oz mussels", 3.0 / 16 * lb, "weight taken as edible; as bought, about 75 %"},
		{"6 oz T-bone steak", 6.0 / 16 * lb, "weight taken as edible; as bought, 25 %"},
		{"3 oz spareribs", 3.0 / 16 * lb, "weight taken as edible; as bought, 30 %"},
		{"4 oz trout", 4.0 / 16 * lb, ""},
	} {
		l := e.Resolve(grammar.ParseLine(c.line).Items[0])
		if math.Abs(l.Grams.Low-c.grams) > 0.6 || (c.grams == 0) != (l.Status == engine.Ask) {
			t.Errorf("%q: %s %.1f g (%v), want %.1f g", c.line, l.Food.Name(), l.Grams.Low, l.Status, c.grams)
		}
		said := strings.Join(l.Assumed, "; ")
		if !strings.Contains(said, c.note) || c.note == "" && (strings.Contains(said, "taken off") || strings.Contains(said, "taken as edible")) {
			t.Errorf("%q: assumed %q, want %q", c.line, said, c.note)
		}
	}
}

// TestAsBought holds that a food that takes the place of another is weighed as the
// other was, unless it says how it is weighed.
func TestAsBought(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		was, now string
		grams    float64
	}{
		{"1.5 kg chicken pieces, bone-in", "chicken meat, without skin", 720},
		{"1.5 kg chicken pieces, bone-in", "chicken breast, with skin", 1200},
		{"1.5 kg chicken pieces, bone-in", "boneless skinless chicken breast", 1500},
		{"1.5 kg chicken pieces, bone-in", "firm tofu", 1500},
		{"1.5 kg chicken pieces, bone-in", "ground chicken", 1500},
		{"1.5 kg bone-in pork shoulder", "lamb shoulder", 1185},
		{"1.5 kg chicken breast, boneless and skinless", "chicken breast, with skin", 1500},
		{"1 kg mussels", "clams", 150},
		{"1 kg mussels", "mussel meat", 1000},
		{"1 kg whole snapper", "sea bass", 470},
		{"1 kg whole snapper", "sea bass fillets", 1000},
		{"1 kg shrimp in shell", "scallops", 1000},
	} {
		was, now := grammar.ParseLine(c.was).Items[0], grammar.ParseLine(c.now).Items[0]
		item := e.AsBought(was, now)
		item.Amount, item.Uncounted = was.Amount, ""
		if l := e.Resolve(item); math.Abs(l.Grams.Low-c.grams) > 0.6 {
			t.Errorf("%s instead of %s: %s %.0f g (%q), want %.0f g", c.now, c.was, l.Food.Name(), l.Grams.Low, l.Assumed, c.grams)
		}
	}
}
