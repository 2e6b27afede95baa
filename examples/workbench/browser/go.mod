module example.com/quoin/examples/workbench/browser

go 1.26

replace example.com/quoin => ../../..

require (
	github.com/chromedp/cdproto v0.160.1
	github.com/chromedp/chromedp v0.23.1
)

require (
	github.com/bojanz/currency v1.4.2 // indirect
	github.com/cockroachdb/apd/v3 v3.2.3 // indirect
)

require (
	example.com/quoin v0.0.0
	github.com/go-json-experiment/json v1.27.2 // indirect
)
