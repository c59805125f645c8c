//go:build unix && !linux

package store

import "errors"

func mountSmall(string) error { return errors.ErrUnsupported }

func remountReadOnly(string) error { return errors.ErrUnsupported }
