package engine_test

import (
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
)

// TestClaimWords holds what is understood of the words.
func TestClaimWords(t *testing.T) {
	a := claimed(1, 110, amounts{fooddata.Energy: 100})
	for words, want := range map[string]string{
		"high in fibre": "high in fibre", "High fiber!": "high in fibre", "high-fibre": "high in fibre", "rich in iron": "high in iron", "fibre-rich": "high in fibre",
		"an excellent source of vitamin C": "high in vitamin C", "packed with protein": "high in protein", "high protein": "high in protein",
		"a good source of calcium": "good source of calcium", "source of iron": "good source of iron", "contains vitamin D": "good source of vitamin D", "provides potassium": "good source of potassium",
		"good source of dietary fibre": "good source of fibre", "good source of folic acid": "good source of folate",
		"low sodium": "low sodium", "low in sodium": "low sodium", "low-sodium": "low sodium", "a low sodium food": "low sodium", "low salt": "low sodium", "“low sodium”": "low sodium",
		"very low sodium": "very low sodium", "very low in sodium": "very low sodium", "sodium free": "sodium free", "sodium-free": "sodium free", "free of sodium": "sodium free", "no sodium": "sodium free", "salt free": "sodium free",
		"low calorie": "low calorie", "low in calories": "low calorie", "low-cal": "low calorie", "calorie free": "calorie free", "zero calories": "calorie free",
		"low fat": "low fat", "fat free": "fat free", "nonfat": "fat free", "non-fat": "fat free", "low in saturated fat": "low saturated fat", "low sat fat": "low saturated fat",
		"saturated fat free": "saturated fat free", "low cholesterol": "low cholesterol", "cholesterol-free": "cholesterol free", "sugar free": "sugar free", "sugarless": "sugar free", "low sugar": "low sugar",
		"reduced sodium": "reduced sodium", "reduced sodium than the original": "reduced sodium", "lower in sodium than before": "reduced sodium", "less salt": "reduced sodium", "25% less sodium": "reduced sodium", "sodium less than the original": "reduced sodium",
		"fewer calories": "reduced calorie", "reduced-fat": "reduced fat", "lower in cholesterol": "reduced cholesterol", "reduced sugar": "reduced sugar",
		"more fibre": "more fibre", "added calcium": "more calcium", "fortified with iron": "more iron", "higher in fibre than the original": "more fibre",
		"light": "light", "Lite": "light", "light in fat": "light", "light in sodium": "light in sodium", "lightly salted": "lightly salted",
		"unsalted": "no salt added", "no salt added": "no salt added", "no added salt": "no salt added", "without added salt": "no salt added",
		"no added sugar": "no added sugars", "no sugar added": "no added sugars", "without added sugars": "no added sugars", "zero added sugar": "no added sugars",
		"lean": "lean", "extra lean": "extra lean", "healthy": "healthy", "healthier than the original": "healthy",
	} {
		if v := a.MayClaim(engine.ClaimRequest{Claim: words}); !v.Known || v.Claim != want || v.Refused != "" {
			t.Errorf("%q: %q, known %t, want %q %s", words, v.Claim, v.Known, want, v.Refused)
		}
	}
	for _, words := range []string{"", " ", "tasty", "low", "high in", "low sodium and high fibre", "low in fat and sugar", "good", "source", "the best muffins in town", "low bananas", "50% low sodium", "25% high in iron", "%", "25%", "\x00", strings.Repeat("low ", 200)} {
		if v := a.MayClaim(engine.ClaimRequest{Claim: words}); v.Known || v.Allowed || len(v.Needs) == 0 {
			t.Errorf("%q: %+v, want it not known, and said", words, v)
		}
	}
}

// TestUndefinedClaims holds that words the regulation does not define are
// never allowed: claims.csv, 21 CFR 101.13(b) and 101.60(c).
func TestUndefinedClaims(t *testing.T) {
	a := claimed(1, 110, nil)
	for _, words := range []string{
		"low sugar", "low in added sugars", "very low fat", "very low calorie", "low carb", "carb free", "reduced carbs", "high carbohydrate", "low protein", "trans fat free", "low trans fat",
		"high in omega-3", "rich in ALA", "high in sodium", "high in fat", "good source of cholesterol", "high energy", "low GI", "keto", "natural", "organic", "vegan", "low potassium", "reduced potassium",
		"light in sugar", "no added fat", "gluten free", "unsweetened", "superfood", "whole grain",
	} {
		v := a.MayClaim(engine.ClaimRequest{Claim: words, Reference: "muffins", Original: claimed(1, 110, amounts{fooddata.Carbohydrate: 50, fooddata.Potassium: 900})})
		if v.Allowed || !v.Known || len(v.Needs) == 0 {
			t.Errorf("%q: %+v, want a reasoned no", words, v)
		}
	}
	v := a.MayClaim(engine.ClaimRequest{Claim: "low sugar"})
	if said := strings.Join(v.Needs, " "); !strings.Contains(said, `"sugar free"`) || !strings.Contains(said, `"reduced sugar"`) || !strings.Contains(said, `"no added sugars"`) {
		t.Errorf("low sugar: %q does not say what is defined", v.Needs)
	}
}

// TestRefused holds the firm no to words about disease, the body and allergy:
// 21 CFR 101.14, and section 201(g)(1) of the Act.
func TestRefused(t *testing.T) {
	a := claimed(1, 245, amounts{fooddata.Fibre: 9, fooddata.Potassium: 4000})
	for _, words := range []string{
		"lowers blood pressure", "good for diabetes", "prevents cancer", "heart healthy", "heart-healthy", "diabetic friendly", "diabetic-friendly", "for diabetics", "suitable for people with diabetes",
		"controls blood sugar", "lowers cholesterol", "helps lower cholesterol", "cholesterol-lowering", "reduces the risk of stroke", "fights inflammation", "anti-inflammatory",
		"boosts immunity", "immune boosting", "supports gut health", "good for your kidneys", "kidney friendly", "renal diet", "builds strong bones", "prevents osteoporosis", "good for the heart",
		"cures anemia", "treats celiac disease", "celiac safe", "weight loss", "helps you lose weight", "burns fat", "detox", "good for you", "good for children", "improves memory", "safe for pregnancy",
		"low sodium for high blood pressure", "high in fibre so it prevents constipation", "high in potassium to lower blood pressure", "relieves gout", "medicinal", "heals the gut",
		"nut free", "dairy-free", "allergen free", "lactose free", "egg free", "hypoallergenic",
	} {
		for _, reference := range []string{"", "soup"} {
			v := a.MayClaim(engine.ClaimRequest{Claim: words, Reference: reference})
			if v.Refused == "" || v.Allowed || !v.Known || v.Rule == "" || !strings.HasPrefix(v.Refused, "No: ") {
				t.Errorf("%q: %+v, want a firm no", words, v)
			}
		}
	}
	for _, words := range []string{"low sodium", "low cholesterol", "reduced cholesterol", "lower in cholesterol", "healthy", "light", "high in iron", "no added sugars", "cholesterol free", "lean"} {
		if v := a.MayClaim(engine.ClaimRequest{Claim: words}); v.Refused != "" {
			t.Errorf("%q is no word about disease: %s", words, v.Refused)
		}
	}
	if v := a.MayClaim(engine.ClaimRequest{Claim: "lowers blood pressure"}); !strings.Contains(strings.Join(v.Needs, " "), `"low sodium"`) {
		t.Errorf("what can be checked instead is not said: %q", v.Needs)
	}
}
