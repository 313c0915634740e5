# The same questions as bench/against-r.ts, answered with R as someone who knows it would: packages where there is one, whole matrices
# instead of loops. Called by bench/against-r.ts with a file of cases; writes results and seconds as JSON.
suppressMessages({ library(survival); library(coin); library(exactRankTests); library(jsonlite) })
cases <- fromJSON(commandArgs(TRUE)[1], simplifyVector = TRUE, simplifyDataFrame = TRUE)

# Runs until a second of CPU has gone by, so that short answers are timed too.
timed <- function(f, least = 1) {
  result <- f(); runs <- 0; start <- proc.time()
  repeat { f(); runs <- runs + 1; used <- proc.time() - start; if (used[["user.self"]] + used[["sys.self"]] >= least) break }
  list(result = result, seconds = (used[["user.self"]] + used[["sys.self"]]) / runs)
}

# Scores of interval-censored times from survival's Turnbull estimate.
scores_of <- function(left, right) {
  fit <- survfit(Surv(ifelse(left == 0, NA, left), right, type = "interval2") ~ 1)
  surv <- function(t) ifelse(is.na(t), 0, c(1, fit$surv)[findInterval(t, fit$time) + 1])
  # survfit puts the mass of a cell at one time inside it: the share left just after a look is that of the cells before it.
  s_left <- surv(left); s_right <- surv(right)
  g <- function(s) ifelse(s > 0, s * log(s), 0)
  ifelse(s_left - s_right > 1e-12, (g(s_left) - g(s_right)) / (s_left - s_right), log(s_left))
}

largest <- function(sums, sizes, family) {
  means <- sums / sizes
  ij <- if (family == "control") rbind(1, 2:length(sizes)) else combn(length(sizes), 2)
  d <- abs(means[ij[1, ], , drop = FALSE] - means[ij[2, ], , drop = FALSE]) / sqrt(1 / sizes[ij[1, ]] + 1 / sizes[ij[2, ]])
  if (nrow(d) == 1) d[1, ] else do.call(pmax, lapply(seq_len(nrow(d)), function(r) d[r, ]))
}

rearranged_p <- function(score, group, family, draws) {
  score <- score - mean(score); sizes <- tabulate(group); k <- length(sizes); n <- length(score)
  observed <- largest(matrix(rowsum(score, group)), sizes, family)
  at_least <- observed - 1e-9 * (1 + observed)
  if (k == 2 && choose(n, sizes[1]) <= 3e5) {
    sums <- colSums(matrix(score[combn(n, sizes[1])], sizes[1]))
    return(mean(largest(rbind(sums, -sums), sizes, family) >= at_least))
  }
  # All rearrangements in one sort: a random key within each column.
  order_of <- order(rep(seq_len(draws), each = n), runif(n * draws))
  dealt <- matrix(rep(score, draws)[order_of], n)
  sums <- rowsum(dealt, rep(seq_len(k), sizes))
  (1 + sum(largest(sums, sizes, family) >= at_least)) / (1 + draws)
}

set_p <- function(trial, treatments, family, draws) {
  rows <- trial[trial$treatment %in% treatments, ]
  rearranged_p(scores_of(rows$left, rows$right), match(rows$treatment, treatments), family, draws)
}

partitions <- function(n) {
  if (n == 1) return(list(1))
  unlist(lapply(partitions(n - 1), function(p) lapply(seq_len(max(p) + 1), function(c) c(p, c))), recursive = FALSE)
}

closed_tests <- function(trial, draws, second_step = TRUE) {
  control <- trial$treatment[1]; others <- setdiff(unique(trial$treatment), control); m <- length(others)
  adjusted <- setNames(numeric(m), others)
  for (set in seq_len(2^m - 1)) {
    inside <- others[bitwAnd(set, 2^(seq_len(m) - 1)) > 0]
    adjusted[inside] <- pmax(adjusted[inside], set_p(trial, c(control, inside), "control", draws))
  }
  if (!second_step) return(adjusted)
  known <- list(); pair <- combn(others, 2); among <- numeric(ncol(pair))
  for (classes in lapply(partitions(m), function(p) Filter(function(s) length(s) > 1, split(others, p)))) {
    if (length(classes) == 0) next
    p <- min(sapply(classes, function(s) { key <- paste(s, collapse = "|")
      if (is.null(known[[key]])) known[[key]] <<- set_p(trial, s, "pairs", draws); known[[key]] }))
    p <- 1 - (1 - p)^length(classes)
    for (s in classes) { inside <- pair[1, ] %in% s & pair[2, ] %in% s; among[inside] <- pmax(among[inside], p) }
  }
  list(control = adjusted, among = among)
}

# Weibull with one shape, and the profile of each ratio by an offset.
time_ratios <- function(trial) {
  y <- Surv(ifelse(trial$left == 0, NA, trial$left), trial$right, type = "interval2")
  treatment <- factor(trial$treatment, unique(trial$treatment)); n <- nrow(trial); df <- n - nlevels(treatment)
  fit <- survreg(y ~ treatment); place <- c(0, coef(fit)[-1]); allowed <- n * log1p(qt(0.975, df)^2 / df)
  apply(combn(nlevels(treatment), 2), 2, function(ij) {
    best <- place[ij[2]] - place[ij[1]]
    merged <- treatment; levels(merged)[ij[2]] <- levels(merged)[ij[1]]; moved <- treatment == levels(treatment)[ij[2]]
    excess <- function(log_ratio) 2 * (fit$loglik[2] - survreg(y ~ merged + offset(log_ratio * moved))$loglik[2]) - allowed
    end <- function(side) { step <- 0.4; while (excess(best + side * step) < 0 && step < 12) step <- step * 1.6
      if (step >= 12) NA else uniroot(excess, sort(c(best, best + side * step)), tol = 1e-7)$root }
    exp(c(best, end(-1), end(1)))
  })
}

findings <- function() {
  trial <- cases$trial
  list(adjusted = closed_tests(trial, cases$draws), ratios = time_ratios(trial))
}

exact_case <- function(row) {
  d <- data.frame(y = cases$exact$values[[row]], g = factor(cases$exact$groups[[row]], c("first", "second")), b = factor(cases$exact$blocks[[row]]))
  by <- switch(cases$exact$method[row],
    stratified = function() as.numeric(pvalue(wilcox_test(y ~ g | b, data = d, distribution = exact()))),
    "rank sum" = function() wilcox.exact(d$y[d$g == "first"], d$y[d$g == "second"])$p.value,
    means = function() perm.test(d$y[d$g == "first"], d$y[d$g == "second"])$p.value)
  timed(by, 0.5)
}

# Trials of the simulation, drawn here as in bench/invented-trials.ts: Weibull shape 2, weekly looks for 12 weeks.
drawn_trial <- function(factors, n) {
  days <- 30 * rep(factors, each = n) * sqrt(-log(runif(n * length(factors)))); left <- pmin(7 * floor(days / 7), 84)
  data.frame(treatment = rep(seq_along(factors), each = n), left = left, right = ifelse(left >= 84, NA, left + 7))
}

# On a common calendar without overlapping looks Turnbull's estimate is the plain share still clean: no iteration, which favours R.
quick_scores <- function(left) {
  share <- c(rev(cumsum(rev(tabulate(left / 7 + 1, 13)))) / length(left), 0)
  s_left <- share[left / 7 + 1]; s_right <- ifelse(left >= 84, 0, share[left / 7 + 2]); g <- function(s) ifelse(s > 0, s * log(s), 0)
  ifelse(left >= 84, log(s_left), (g(s_left) - g(s_right)) / (s_left - s_right))
}

simulated <- function(factors, n, trials, draws) {
  k <- length(factors); shown <- 0
  for (one in seq_len(trials)) {
    trial <- drawn_trial(factors, n); adjusted <- numeric(k - 1)
    for (set in seq_len(2^(k - 1) - 1)) {
      inside <- which(bitwAnd(set, 2^(seq_len(k - 1) - 1)) > 0)
      if (any(adjusted[inside] <= 0.05)) {
        rows <- trial$treatment %in% c(1, inside + 1)
        p <- rearranged_p(quick_scores(trial$left[rows]), match(trial$treatment[rows], c(1, inside + 1)), "control", draws)
        adjusted[inside] <- pmax(adjusted[inside], p)
      }
    }
    shown <- shown + (adjusted[1] <= 0.05)
  }
  shown / trials
}

set.seed(1)
cat(toJSON(list(
  versions = list(R = R.version.string, survival = as.character(packageVersion("survival")), coin = as.character(packageVersion("coin")),
    exactRankTests = as.character(packageVersion("exactRankTests")), blas = basename(extSoftVersion()[["BLAS"]])),
  findings = timed(findings, 1),
  exact = lapply(seq_along(cases$exact$method), exact_case),
  simulations = lapply(seq_len(nrow(cases$simulations)), function(row) with(cases$simulations[row, ], {
    start <- proc.time(); power <- simulated(factors[[1]], n, trials, cases$simulationDraws); used <- proc.time() - start
    list(power = power, seconds = used[["user.self"]] + used[["sys.self"]])
  }))
), digits = NA, auto_unbox = TRUE))
