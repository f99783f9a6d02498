package fooddata

// Portion is a household measure of one food: "1 cup, chopped is 160 g".
type Portion struct {
	// Amount is how many of Measure weigh Grams; often 1. The source writes a third
	// as .33 or .333, and so does Amount.
	Amount float64
	// Measure is a word or two in the singular. Volumes are "cup", "tbsp", "tsp",
	// "fl oz", "pint", "quart", "gallon", "ml", "l"; weights "oz", "lb"; a whole
	// item is "each"; what a pound of raw food comes to is "yield"; others are
	// "slice", "clove", "can" and so on.
	Measure string
	// Size is "mini", "extra small", "small", "medium", "large", "extra large",
	// "jumbo" or "".
	Size string
	// Detail is what else the source says: "chopped", "packed", `3" dia`, "fruit".
	// Several details are joined by "; ".
	Detail string
	// Grams is the mass of Amount of Measure, edible portion.
	Grams Grams
	// Source is "SR28" or the source that our list gives.
	Source string
}
