# Answers the questions of tests/ClearView.Quality.Tests with R's own statistics. One question per line of standard input:
# its name, then vectors of numbers, separated by tabs; numbers within a vector by spaces. One answer per line.

questions <- list(
  quantile = function(x, p) quantile(x, p, names = FALSE),
  # Distributions. ptukey wants at least 2 degrees of freedom; pt takes a normal approximation from ncp = 37.6 on.
  ptukey = function(q, means, df) ptukey(q, means, df),
  qtukey = function(p, means, df) qtukey(p, means, df),
  pt = function(t, df, ncp) pt(t, df, ncp),
  qt = function(p, df, ncp) qt(p, df, ncp),
  student_upper = function(t, df) pt(t, df, lower.tail = FALSE),
  student_quantile = function(p, df) qt(p, df, lower.tail = FALSE),
  fisher_upper = function(f, df1, df2) pf(f, df1, df2, lower.tail = FALSE),
  fisher_quantile = function(p, df1, df2) qf(p, df1, df2, lower.tail = FALSE),
  fisher_noncentral_upper = function(f, df1, df2, ncp) pf(f, df1, df2, ncp, lower.tail = FALSE),
  chi_squared_upper = function(x, df) pchisq(x, df, lower.tail = FALSE),
  chi_squared_quantile = function(p, df) qchisq(p, df, lower.tail = FALSE)
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
