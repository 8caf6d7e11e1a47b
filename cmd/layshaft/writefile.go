package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// writeFile has write fill a new file, which is synced and only then given its name: nobody ever finds half of it.
// When anything fails, the file that bore the name before is still there. What is not a plain file, such as a pipe,
// is written to as it is.
func writeFile(path string, write func(io.Writer) error) error {
	info, err := os.Stat(path)
	switch {
	case err == nil && info.IsDir():
		return fmt.Errorf("%s: is a folder; name a file in it", path)
	case err == nil && !info.Mode().IsRegular():
		return unwritten(path, fill(path, os.O_WRONLY, write))
	}
	if err == nil && !isPDF(path) {
		return fmt.Errorf("%s: is there already and is no PDF; it is left as it is, name another file", path)
	}
	beside := fmt.Sprintf("%s.partial-%d", path, os.Getpid())
	if err := fill(beside, os.O_WRONLY|os.O_CREATE|os.O_EXCL, write); err != nil {
		return unwritten(path, err)
	}
	if err := os.Rename(beside, path); err != nil {
		return unwritten(path, errors.Join(err, os.Remove(beside)))
	}
	return nil
}

// isPDF reports whether a file begins as a PDF does, or is empty: only such a file is written over.
func isPDF(path string) bool {
	file, err := os.Open(path)
	if err != nil {
		return false
	}
	defer file.Close()
	head := make([]byte, 5)
	n, err := io.ReadFull(file, head)
	return n == 0 && errors.Is(err, io.EOF) || string(head[:n]) == "%PDF-"
}

// fill writes a file and syncs it; where that fails, a file that it made is taken away again.
func fill(path string, how int, write func(io.Writer) error) (err error) {
	file, err := os.OpenFile(path, how, 0o666)
	if err != nil {
		return err
	}
	defer func() {
		err = errors.Join(err, file.Close())
		if err != nil && how&os.O_CREATE != 0 {
			err = errors.Join(err, os.Remove(path))
		}
	}()
	if err := write(file); err != nil || how&os.O_CREATE == 0 {
		return err
	}
	return file.Sync()
}

// unwritten says in plain words why there is no file.
func unwritten(path string, err error) error {
	switch {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: there is no folder %s", path, filepath.Dir(path))
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s: you may not write there", path)
	case errors.Is(err, syscall.ENOSPC):
		return fmt.Errorf("%s: the disk is full", path)
	}
	return fmt.Errorf("%s: %w", path, err)
}
