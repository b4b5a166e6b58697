package desk

import (
	"net/url"
	"strings"
)

// orPath returns the address to go back to, or another when none is given.
func orPath(back, other string) string {
	if back == "" {
		return other
	}
	return backOf(back)
}

// backOf returns an address of the desk to go back to; anything else becomes
// the first page, so that nobody is sent out of the house.
func backOf(back string) string {
	u, err := url.Parse(back)
	if err != nil || u.IsAbs() || u.Host != "" || !strings.HasPrefix(u.Path, "/desk") && !strings.HasPrefix(u.Path, "/front/") ||
		strings.Contains(back, "\\") || strings.HasPrefix(back, "//") {
		return "/desk"
	}
	for _, form := range []string{"/desk/login", "/desk/unlock", "/desk/lock", "/desk/setup", "/desk/recover", "/desk/code", "/desk/logout"} {
		if u.Path == form {
			return "/desk"
		}
	}
	return u.RequestURI()
}

func escapeBack(back string) string { return url.QueryEscape(backOf(back)) }
