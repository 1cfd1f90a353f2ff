//go:build !linux

package main

// largePages does nothing where the system is not known to take such advice.
func largePages() {}
