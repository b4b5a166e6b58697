package desk

import (
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base32"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"golang.org/x/crypto/argon2"
	"golang.org/x/text/unicode/norm"
)

// The parameters of argon2id: 19 MiB, two passes, one lane. They are the first
// of the equivalent settings in the OWASP Password Storage Cheat Sheet that a
// small school laptop runs in a tenth of a second without its memory growing;
// RFC 9106 section 4 recommends 64 MiB and three passes where memory allows.
// A hash carries its own parameters, so that they may be raised later.
const (
	keyMemory = 19 * 1024 // KiB
	keyPasses = 2
	keyLanes  = 1
	keyBytes  = 32
	saltBytes = 16
)

// The lengths that a passphrase may have, in characters: NIST SP 800-63B-4
// asks for 15 where a password stands alone, and for room for 64 and more.
const (
	shortest = 15
	longest  = 256
)

// The faults of a passphrase, by the message that tells of them.
const (
	faultShort  = "setup.fault_short"
	faultLong   = "setup.fault_long"
	faultCommon = "setup.fault_common"
)

// faultOf returns the id of the message that says what is wrong with a
// passphrase, "" when it will do. Any words will do that are not the first
// that everybody tries.
func faultOf(passphrase string) string {
	switch n := utf8.RuneCountInString(passphrase); {
	case n < shortest:
		return faultShort
	case n > longest:
		return faultLong
	case common(passphrase):
		return faultCommon
	}
	return ""
}

// obvious are passphrases that everybody tries first, as common folds them.
var obvious = []string{
	"passwordpassword", "correcthorsebatterystaple", "thequickbrownfox", "thequickbrownfoxjumpsoverthelazydog",
	"letmeinletmein", "iloveyouiloveyou", "qwertyuiopasdfghjkl", "qwertyuiopasdfghjklzxcvbnm", "mypassphraseislong",
	"thisismypassword", "thisismypassphrase", "pegwrightpegwright", "pegwrightpassphrase", "pegwrightpassword",
	"abcdefghijklmno", "abcdefghijklmnop", "abcdefghijklmnopqrstuvwxyz", "123456789012345", "1234567890123456",
	"teacherteacher", "passwordpassphrase", "contraseñacontraseña", "estaesmicontraseña",
}

// common reports whether a passphrase is obvious: one of the list, or a short
// piece over and over.
func common(passphrase string) bool {
	folded := strings.ToLower(strings.Join(strings.FieldsFunc(passphrase, func(r rune) bool {
		return strings.ContainsRune(" \t-_.,!?'", r)
	}), ""))
	if slices.Contains(obvious, folded) {
		return true
	}
	runes := []rune(folded)
	for period := 1; period <= 4; period++ {
		if repeats(runes, period) {
			return true
		}
	}
	return false
}

// repeats reports whether a text is a piece of a length over and over.
func repeats(text []rune, period int) bool {
	for i := period; i < len(text); i++ {
		if text[i] != text[i-period] {
			return false
		}
	}
	return true
}

// plain brings a passphrase into the one form that is hashed, so that it does
// not matter how a keyboard composes its letters.
func plain(passphrase string) []byte { return norm.NFKC.Bytes([]byte(passphrase)) }

// hashKey returns the argon2id hash of a passphrase or a recovery code, in the
// usual text form with its salt and parameters.
func hashKey(random io.Reader, secret string) (string, error) {
	salt := make([]byte, saltBytes)
	if _, err := io.ReadFull(random, salt); err != nil {
		return "", fmt.Errorf("salt: %w", err)
	}
	key := argon2.IDKey(plain(secret), salt, keyPasses, keyMemory, keyLanes, keyBytes)
	encode := base64.RawStdEncoding.EncodeToString
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s",
		argon2.Version, keyMemory, keyPasses, keyLanes, encode(salt), encode(key)), nil
}

var errBadHash = errors.New("a stored key cannot be read")

// matches reports whether a secret is the one that a hash was made of.
func matches(hash, secret string) (bool, error) {
	var version, memory, passes, lanes int
	parts := strings.Split(hash, "$")
	if len(parts) != 6 || parts[1] != "argon2id" {
		return false, errBadHash
	}
	if _, err := fmt.Sscanf(parts[2]+" "+parts[3], "v=%d m=%d,t=%d,p=%d", &version, &memory, &passes, &lanes); err != nil {
		return false, errBadHash
	}
	salt, err1 := base64.RawStdEncoding.DecodeString(parts[4])
	key, err2 := base64.RawStdEncoding.DecodeString(parts[5])
	if err1 != nil || err2 != nil || version != argon2.Version || memory < 1 || passes < 1 || lanes < 1 || lanes > 255 || len(key) == 0 {
		return false, errBadHash
	}
	got := argon2.IDKey(plain(secret), salt, uint32(passes), uint32(memory), uint8(lanes), uint32(len(key)))
	return subtle.ConstantTimeCompare(got, key) == 1, nil
}

// code32 leaves out the letters and digits that are mistaken for one another.
var code32 = base32.NewEncoding("ABCDEFGHJKMNPQRSTVWXYZ0123456789").WithPadding(base32.NoPadding)

// newRecovery returns a recovery code: 100 random bits as five groups of four
// letters and digits.
func newRecovery(random io.Reader) (string, error) {
	raw := make([]byte, 13)
	if _, err := io.ReadFull(random, raw); err != nil {
		return "", fmt.Errorf("recovery code: %w", err)
	}
	text := code32.EncodeToString(raw)[:20]
	return strings.Join([]string{text[:4], text[4:8], text[8:12], text[12:16], text[16:]}, "-"), nil
}

// foldRecovery reads a recovery code as people type it: small letters, spaces
// or nothing between the groups, and the letters that it never has.
func foldRecovery(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == 'O':
			return '0'
		case r == 'I', r == 'L':
			return '1'
		case r >= 'A' && r <= 'Z', r >= '0' && r <= '9':
			return r
		}
		return -1
	}, strings.ToUpper(text))
}

// newToken returns a random token of 256 bits for a cookie.
func newToken(random io.Reader) (string, error) {
	raw := make([]byte, 32)
	if _, err := io.ReadFull(random, raw); err != nil {
		return "", fmt.Errorf("token: %w", err)
	}
	return base64.RawURLEncoding.EncodeToString(raw), nil
}

// tokenHash is what of a token is kept.
func tokenHash(token string) string {
	sum := sha256.Sum256([]byte(token))
	return hex.EncodeToString(sum[:])
}
