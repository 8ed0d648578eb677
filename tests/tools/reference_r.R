# Answers the questions of tests/ClearView.Quality.Tests with R's own statistics. One question per line of standard input:
# its name, then vectors of numbers, separated by tabs; numbers within a vector by spaces. One answer per line.

pairs_of <- function(group) combn(sort(unique(group)), 2)

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
  chi_squared_quantile = function(p, df) qchisq(p, df, lower.tail = FALSE),
  # Samples: mean, standard deviation, ends of the 95 % interval of the mean.
  describe = function(x) c(mean(x), sd(x), t.test(x)$conf.int),
  # Lots: y are the values, group the number of each value's lot.
  aov = function(y, group) {
    table <- summary(aov(y ~ factor(group)))[[1]]
    c(table[["Sum Sq"]], table[["F value"]][1], table[["Pr(>F)"]][1])
  },
  welch_anova = function(y, group) {
    test <- oneway.test(y ~ factor(group))
    c(test$statistic, test$parameter, test$p.value)
  },
  kruskal = function(y, group) {
    test <- kruskal.test(y, factor(group))
    c(test$statistic, test$p.value)
  },
  # Per pair: difference (second less first), lower, upper, p.
  tukey_hsd = function(y, group) t(TukeyHSD(aov(y ~ factor(group)))[[1]]),
  # Not in base R: by its definition (Games and Howell 1976), with R's own ptukey. Per pair: q, degrees of freedom, p.
  games_howell = function(y, group) apply(pairs_of(group), 2, function(pair) {
    a <- y[group == pair[1]]
    b <- y[group == pair[2]]
    welch <- t.test(a, b)
    q <- abs(welch$statistic) * sqrt(2)
    c(q, welch$parameter, ptukey(q, length(unique(group)), welch$parameter, lower.tail = FALSE))
  }),
  welch_t = function(a, b) {
    test <- t.test(a, b)
    c(test$statistic, test$parameter, test$p.value, test$conf.int)
  },
  equivalence = function(a, b, margin) c(
    max(t.test(a, b, mu = -margin, alternative = "greater")$p.value, t.test(a, b, mu = margin, alternative = "less")$p.value),
    t.test(a, b, conf.level = 0.9)$conf.int
  ),
  power_t = function(n, delta, sd) power.t.test(n = n, delta = delta, sd = sd, strict = TRUE)$power,
  n_t = function(delta, sd, power) ceiling(power.t.test(delta = delta, sd = sd, power = power, strict = TRUE, tol = 1e-9)$n),
  n_anova = function(means, sd, power) ceiling(power.anova.test(
    groups = length(means), between.var = var(means), within.var = sd^2, power = power
  )$n),
  # Ageing: F of equal slopes with its degrees of freedom and p, then the slopes.
  ancova = function(y, time, group) {
    lot <- factor(group)
    test <- anova(lm(y ~ lot + time), lm(y ~ lot * time))
    c(test$F[2], test$Df[2], test$Res.Df[2], test[["Pr(>F)"]][2], coef(lm(y ~ 0 + lot + lot:time))[-seq_along(levels(lot))])
  },
  # Slope, standard error, 95 % interval of one lot.
  slope = function(y, time) {
    line <- lm(y ~ time)
    c(summary(line)$coefficients[2, 1:2], confint(line)[2, ])
  },
  # Per pair of lots: p of the difference of slopes, adjusted by the studentised range.
  slope_pairs = function(y, time, group) {
    lot <- factor(group)
    line <- lm(y ~ 0 + lot + lot:time)
    k <- nlevels(lot)
    apply(combn(k, 2), 2, function(pair) {
      contrast <- rep(0, 2 * k)
      contrast[k + pair] <- c(1, -1)
      error <- sqrt(drop(contrast %*% vcov(line) %*% contrast))
      ptukey(abs(sum(contrast * coef(line))) / error * sqrt(2), k, df.residual(line), lower.tail = FALSE)
    })
  }
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
