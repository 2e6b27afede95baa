// Package browser tests the workbench in a real Chromium: see the tests. It is a module of its own,
// so that nobody who imports the library gets what drives a browser.
package browser
