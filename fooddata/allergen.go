package fooddata

// Allergen is one of the nine major food allergens of United States law (Food
// Allergen Labeling and Consumer Protection Act of 2004; sesame by the FASTER
// Act of 2021, from 1 January 2023). Molluscs, barley, rye, oats, mustard and
// coconut are not among them.
type Allergen uint8

// The major allergens, in the order in which replies list them.
const (
	Milk Allergen = iota
	Eggs
	Fish
	Shellfish
	TreeNuts
	Peanuts
	Wheat
	Soybeans
	Sesame

	NumAllergens = int(iota)
)

var allergenNames = [NumAllergens]string{
	"milk", "eggs", "fish", "crustacean shellfish", "tree nuts",
	"peanuts", "wheat", "soybeans", "sesame",
}

// String returns the name that the law uses, in lower case: "tree nuts".
func (a Allergen) String() string {
	if int(a) >= NumAllergens {
		return "unknown allergen"
	}
	return allergenNames[a]
}

// AllergenNamed returns the allergen with the given name, as String writes it.
func AllergenNamed(name string) (Allergen, bool) {
	for i, n := range allergenNames {
		if n == name {
			return Allergen(i), true
		}
	}
	return 0, false
}

// allergens returns the allergens whose bit is set, the lowest bit being Milk.
func allergens(bits uint16) []Allergen {
	var list []Allergen
	for a := Allergen(0); int(a) < NumAllergens; a++ {
		if bits&(1<<a) != 0 {
			list = append(list, a)
		}
	}
	return list
}
