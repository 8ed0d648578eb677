# Answers questions on control charts, capability, specifications and rolls with R's own functions. One question per line of
# standard input: its name, then vectors of numbers, separated by tabs; numbers within a vector by spaces. One answer per line.

# Mean and standard deviation of the range of n standard normal values, from P(W > w) by adaptive quadrature.
range_factors <- function(n) {
  beyond <- function(w) ptukey(w, n, Inf, lower.tail = FALSE)
  first <- integrate(beyond, 0, Inf, rel.tol = 1e-10)$value
  second <- integrate(function(w) 2 * w * beyond(w), 0, Inf, rel.tol = 1e-10)$value
  c(first, sqrt(second - first^2))
}

c4 <- function(n) {
  # E[s] from the density of chi with n - 1 degrees of freedom.
  integrate(function(q) sqrt(q / (n - 1)) * dchisq(q, n - 1), 0, Inf, rel.tol = 1e-10)$value
}

anderson_darling <- function(x) {
  x <- sort(x)
  n <- length(x)
  p <- pnorm(x, mean(x), sd(x), log.p = TRUE)
  q <- pnorm(x, mean(x), sd(x), lower.tail = FALSE, log.p = TRUE)
  a <- -n - mean((2 * seq_len(n) - 1) * (p + rev(q)))
  adjusted <- a * (1 + 0.75 / n + 2.25 / n^2)
  # Exact small-sample distributions have no closed form: p by simulation, so that the approximation is checked by another way.
  set.seed(20240401)
  drawn <- replicate(20000, {
    y <- sort(rnorm(n))
    p <- pnorm(y, mean(y), sd(y), log.p = TRUE)
    q <- pnorm(y, mean(y), sd(y), lower.tail = FALSE, log.p = TRUE)
    -n - mean((2 * seq_len(n) - 1) * (p + rev(q)))
  })
  c(a, adjusted, mean(drawn >= a))
}

box_cox <- function(x) {
  likelihood <- function(lambda) {
    y <- if (abs(lambda) < 1e-9) log(x) else (x^lambda - 1) / lambda
    -length(x) / 2 * log(mean((y - mean(y))^2)) + (lambda - 1) * sum(log(x))
  }
  optimize(likelihood, c(-5, 5), maximum = TRUE, tol = 1e-10)$maximum
}

# Expectations of the quadratic forms from projection matrices and traces, for any numbers per cell.
henderson <- function(lane, block, y) {
  n <- length(y)
  projection <- function(z) z %*% solve(crossprod(z)) %*% t(z)
  za <- model.matrix(~ 0 + factor(lane))
  zb <- model.matrix(~ 0 + factor(block))
  pm <- matrix(1 / n, n, n)
  pa <- projection(za)
  pb <- projection(zb)
  forms <- list(pa - pm, pb - pm, diag(n) - pa - pb + pm)
  parts <- list(tcrossprod(za), tcrossprod(zb), diag(n))
  expected <- t(sapply(forms, function(q) sapply(parts, function(v) sum(diag(q %*% v)))))
  solve(expected, sapply(forms, function(q) drop(t(y) %*% q %*% y)))
}

two_way <- function(lane, block, y) {
  # Balanced: the analysis of variance, equated with its expected mean squares.
  table <- anova(lm(y ~ factor(lane) + factor(block)))
  ms <- table[["Mean Sq"]]
  a <- length(unique(lane))
  b <- length(unique(block))
  r <- length(y) / a / b
  c((ms[1] - ms[3]) / (b * r), (ms[2] - ms[3]) / (a * r), ms[3])
}

questions <- list(
  range_factors = range_factors,
  c4 = c4,
  autocorrelation = function(x, m) {
    test <- Box.test(x, lag = m, type = "Ljung-Box")
    c(acf(x, lag.max = 1, plot = FALSE)$acf[2], test$statistic, test$p.value)
  },
  anderson_darling = anderson_darling,
  box_cox = box_cox,
  quantile = function(x, p) quantile(x, p, names = FALSE),
  chi_ratio = function(nu, level) sqrt(qchisq(c((1 - level) / 2, (1 + level) / 2), nu) / nu),
  moving_range_freedom = function(n, draws) {
    # By simulation: degrees of freedom from the variance of the mean moving range.
    set.seed(20240402)
    mean_range <- replicate(draws, mean(abs(diff(rnorm(n)))))
    mean(mean_range)^2 / (2 * var(mean_range))
  },
  probability = function(y, u, nu, lower, upper) pt((upper - y) / u, nu) - pt((lower - y) / u, nu),
  slope = function(x, y) {
    fit <- lm(y ~ x)
    c(coef(fit)[2], confint(fit)[2, ], summary(fit)$sigma)
  },
  lane_interval = function(x) t.test(x)$conf.int,
  streak = function(x, lanes) {
    test <- t.test(x)
    c(test$statistic, min(1, lanes * test$p.value))
  },
  henderson = henderson,
  two_way = two_way
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
