"""Laws of nature: pure functions, SI in and SI out; no files, clocks, printing or plan models."""
