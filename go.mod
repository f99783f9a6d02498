module pottle

go 1.26.0

require (
	github.com/agnivade/levenshtein v1.2.1
	github.com/alecthomas/kong v1.17.0
	github.com/alecthomas/participle/v2 v2.1.4
	github.com/hashicorp/golang-lru/v2 v2.0.7
	github.com/rogpeppe/go-internal v1.16.0
	golang.org/x/term v0.48.0
)

require (
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/tools v0.26.0 // indirect
)
