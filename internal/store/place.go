package store

import (
	"os"
	"path/filepath"
	"runtime"

	"example.com/plumbline/internal/words"
)

// DefaultPath is where the answers are kept when no file is named: in the
// folder for programs' data that the platform expects. It is an error when the
// environment does not say whose folder that is.
func DefaultPath() (string, error) {
	home, _ := os.UserHomeDir()
	return defaultPath(runtime.GOOS, home, os.Getenv)
}

// defaultPath follows the XDG Base Directory Specification, which passes over
// a folder that is not absolute, but for the two systems with a place of their
// own.
func defaultPath(system, home string, getenv func(string) string) (string, error) {
	data := ""
	if filepath.IsAbs(home) {
		data = filepath.Join(home, ".local", "share")
	}
	switch system {
	case "darwin":
		if data != "" {
			data = filepath.Join(home, "Library", "Application Support")
		}
	case "windows":
		data = getenv("LocalAppData")
	default:
		if dir := getenv("XDG_DATA_HOME"); filepath.IsAbs(dir) {
			data = dir
		}
	}
	if data == "" {
		return "", words.Fail("answers.file.no_home")
	}
	return filepath.Join(data, "plumbline", "answers.yaml"), nil
}
