package grammar

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

func TestReq(t *testing.T) {
	for _, s := range strings.Split(`how many grams is 1/3 cup packed brown sugar
sodium in 1 tsp soy sauce
how much fibre in 1 cup cooked lentils
how much sodium is there in a quarter teaspoon of salt?
1 medium banana
potassium: banana vs orange
compare banana vs orange
compare butter and margarine
which has more iron: spinach or kale
carb choices in 1 cup cooked rice
how many carbohydrate choices is 1/2 cup oatmeal
servings 6
serves 4-6
6 servings
make it 9 servings
line 3 is 2% milk
Line 12: 1 cup skim milk
help
lines
show lines
what does 1 cup flour weigh?
grams in 1/3 cup rice
1 cup flour in grams
what is in 1 large egg
protein 100 g chicken breast
calories in a slice of white bread
how much vitamin c in 1 cup orange juice
vitamin B6 in 1 banana
sat fat in 2 T butter
hello
please tell me the sodium in 1 cup chicken broth
is this ok for my client
2 tbsp butter or margarine
fat of 30 g cheddar
sodium in 1 cup canned black beans vs 1 cup cooked black beans`, "\n") {
		t0 := time.Now()
		r, err := ParseRequest(s)
		d := time.Since(t0)
		fmt.Printf("%-60s kind=%d nutrient=%q amounts=%q line=%d serv=%v err=%v %v\n", s, r.Kind, r.Nutrient, r.Amounts, r.Line, r.Servings, err, d)
	}
}
