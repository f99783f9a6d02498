module pottle

go 1.26.0

require (
	github.com/agnivade/levenshtein v1.2.1 // indirect
	github.com/alecthomas/kong v1.17.0 // indirect
	github.com/alecthomas/participle/v2 v2.1.4 // indirect
	github.com/hashicorp/golang-lru/v2 v2.0.7 // indirect
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/term v0.48.0 // indirect
)
