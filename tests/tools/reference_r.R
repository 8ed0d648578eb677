# Answers the questions of tests/ClearView.Quality.Tests with R's own statistics. One question per line of standard input:
# its name, then vectors of numbers, separated by tabs; numbers within a vector by spaces. One answer per line.

questions <- list(
  quantile = function(x, p) quantile(x, p, names = FALSE)
)

input <- file("stdin")
lines <- readLines(input)
close(input)
for (line in lines) {
  parts <- strsplit(line, "\t", fixed = TRUE)[[1]]
  vectors <- lapply(strsplit(parts[-1], " ", fixed = TRUE), as.numeric)
  answer <- do.call(questions[[parts[1]]], vectors)
  cat(sprintf("%.17g", as.numeric(answer)))
  cat("\n")
}
