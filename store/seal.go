package store

import (
	"crypto/aes"
	"crypto/cipher"
	"crypto/hkdf"
	"crypto/sha256"
)

// derive makes a 256-bit key for one use.
func (k *Key) derive(use string) []byte {
	b, err := hkdf.Key(sha256.New, []byte(k.identity.String()), nil, use, 32)
	if err != nil {
		panic("store: " + err.Error()) // only for absurd lengths
	}
	return b
}

// sealer is AES-256-GCM, with a nonce by chance that stands before what it seals.
func (k *Key) sealer() cipher.AEAD {
	block, err := aes.NewCipher(k.derive("pottle store, tokens, 1"))
	if err != nil {
		panic("store: " + err.Error()) // only for other lengths
	}
	aead, err := cipher.NewGCMWithRandomNonce(block)
	if err != nil {
		panic("store: " + err.Error()) // only for other blocks
	}
	return aead
}

// seal seals a token. It can be opened for the same workspace only.
func (k *Key) seal(workspace string, token Secret) []byte {
	return k.sealer().Seal(nil, nil, []byte(token), []byte(workspace))
}

// unseal opens what seal sealed with the same key; no key opens nothing.
func (k *Key) unseal(workspace string, sealed []byte) (Secret, bool) {
	if k == nil {
		return "", false
	}
	token, err := k.sealer().Open(nil, nil, sealed, []byte(workspace))
	return Secret(token), err == nil
}

// unsealAny opens the first of the seals that the key fits.
func (k *Key) unsealAny(workspace string, seals [][]byte) (Secret, bool) {
	for _, sealed := range seals {
		if token, ok := k.unseal(workspace, sealed); ok {
			return token, true
		}
	}
	return "", false
}

// reseal has every token sealed with the given keys, once with each, and
// returns how many there are. Tokens that the store's key does not open are of
// another store and stay as they are.
func (b *Badger) reseal(keys ...*Key) (tokens int, err error) {
	names, err := b.Workspaces(ctxAlways)
	if err != nil {
		return 0, err
	}
	for _, name := range names {
		opened := false
		err := b.update(ctxAlways, func(t *tx) error {
			a := areaOf(name)
			var kept access
			ok, err := t.access(a, &kept)
			if err != nil || !ok {
				return err
			}
			token, ok := b.opt.Key.unsealAny(name, kept.Seals)
			if opened = ok; !ok {
				return nil
			}
			kept.Seals = nil
			for _, k := range keys {
				kept.Seals = append(kept.Seals, k.seal(name, token))
			}
			return t.write(a.key(kindAccess), kept)
		})
		if err != nil {
			return tokens, err
		}
		if opened {
			tokens++
		}
	}
	return tokens, nil
}
