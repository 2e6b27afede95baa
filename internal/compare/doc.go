// Package compare does the same sums with several decimal libraries, with plain
// integers and floats, in a workbook and with quoin, so that they can be timed
// side by side in one run. It is a module of its own, so that the library needs
// none of them.
package compare
