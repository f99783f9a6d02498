package engine

import (
	"strconv"
	"strings"
)

// timed returns the minutes told at clause[i], unless they tell of something
// else: "every 10 minutes". Minutes "per side" count twice.
func timed(clause []stepToken, i int) (int, bool) {
	minutes, length := minutesAt(clause[i:])
	if length == 0 || i > 0 && (clause[i-1].word == "every" || clause[i-1].word == "last" || clause[i-1].word == "first") {
		return 0, false
	}
	rest := clause[i+length:]
	for j := 0; j+1 < len(rest) && j < 3; j++ {
		if w := rest[j].word; (w == "per" || w == "each" || w == "a" || w == "both" || w == "either") && strings.HasPrefix(rest[j+1].word, "side") {
			return minutes * 2, true
		}
	}
	return minutes, true
}

// mostMinutes is the longest time that is believed: a week.
const mostMinutes = 7 * 24 * 60

// duration reads a time at the front of tokens and returns its whole minutes,
// the smaller of two, at least one, and how many tokens it takes; none if
// there is no time. Known forms: "45 minutes", "1 1/2 hours", "1 hour 10 min",
// "20-25 minutes", "1 to 1½ h", "an hour", "half an hour".
func minutesAt(tokens []stepToken) (minutes, length int) {
	word := func(i int) string {
		if i < len(tokens) {
			return tokens[i].word
		}
		return ""
	}
	if word(0) == "half" && (word(1) == "an" || word(1) == "a") && word(2) == "hour" {
		return 30, 3
	}
	if word(0) == "half" && word(1) == "hour" {
		return 30, 2
	}
	value, i := mixedNumber(tokens)
	if i == 0 {
		if (word(0) != "an" && word(0) != "a") || word(1) != "hour" && word(1) != "minute" {
			return 0, 0
		}
		value, i = 1, 1
	}
	for i < 8 && (word(i) == "to" || word(i) == "or" || i < len(tokens) && isNumberWord(word(i))) { // the larger end
		if !isNumberWord(word(i)) && !isNumberWord(word(i+1)) {
			break
		}
		if !isNumberWord(word(i)) {
			i++
		}
		_, n := mixedNumber(tokens[i:])
		i += n
	}
	if word(i) == "and" && word(i+1) == "a" && word(i+2) == "half" {
		value += 0.5
		i += 3
	}
	unit, ok := timeUnits[word(i)]
	if !ok {
		return 0, 0
	}
	i++
	total := value * unit
	if unit == 60 {
		if word(i) == "and" && word(i+1) == "a" && word(i+2) == "half" {
			return wholeMinutes(total + 30), i + 3
		}
		j := i
		for word(j) == "and" || word(j) == "plus" || word(j) == "," {
			j++
		}
		if v, n := mixedNumber(tokens[j:]); n > 0 && timeUnits[word(j+n)] == 1 {
			total += v
			i = j + n + 1
		}
	}
	return wholeMinutes(total), i
}

func wholeMinutes(minutes float64) int {
	switch {
	case minutes > mostMinutes || minutes <= 0:
		return 0
	case minutes < 1:
		return 1
	}
	return int(minutes)
}

// timeUnits are minutes.
var timeUnits = map[string]float64{"minute": 1, "minutes": 1, "min": 1, "mins": 1, "hour": 60, "hours": 60, "hr": 60, "hrs": 60, "h": 60,
	"second": 1.0 / 60, "seconds": 1.0 / 60, "sec": 1.0 / 60, "secs": 1.0 / 60}

// amount reads a number, with its fraction, at the front of tokens.
func mixedNumber(tokens []stepToken) (value float64, length int) {
	if len(tokens) == 0 {
		return 0, 0
	}
	value, ok := numberWord(tokens[0].word)
	if !ok {
		return 0, 0
	}
	if len(tokens) > 1 && value == float64(int(value)) {
		if f, ok := numberWord(tokens[1].word); ok && f < 1 {
			return value + f, 2
		}
	}
	return value, 1
}

func isNumberWord(word string) bool { _, ok := numberWord(word); return ok }

var spelledNumbers = map[string]float64{"¼": 0.25, "½": 0.5, "¾": 0.75, "⅓": 1.0 / 3, "⅔": 2.0 / 3, "⅛": 0.125, "one": 1, "two": 2, "three": 3, "four": 4,
	"five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "twelve": 12, "fifteen": 15, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60}

func numberWord(word string) (float64, bool) {
	if v, ok := spelledNumbers[word]; ok {
		return v, true
	}
	over, under, fraction := strings.Cut(strings.ReplaceAll(word, "⁄", "/"), "/")
	v, err := strconv.ParseFloat(over, 64)
	if err != nil || over == "" || over[0] < '0' || over[0] > '9' {
		return 0, false
	}
	if fraction {
		d, err := strconv.ParseFloat(under, 64)
		if err != nil || d == 0 {
			return 0, false
		}
		v /= d
	}
	return v, true
}
