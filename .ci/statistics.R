# Recomputes the statistics of an exported study in base R and compares them with its tables:
#   Rscript .ci/statistics.R EXPORT
# Quantiles, effect sizes, Jensen-Shannon distances, slopes and adjusted p-values have to agree to
# 1e-9; what rests on random draws, to five Monte-Carlo standard errors of both sides.
arguments <- commandArgs(trailingOnly = TRUE)
if (length(arguments) != 1) stop("Usage: Rscript statistics.R EXPORT")
options(warn = 2)
table <- function(name) {
  read.csv(file.path(arguments[1], "csv", paste0(name, ".csv")),
           colClasses = c(solo_id = "character", date = "character", phrase_index = "integer"),
           na.strings = "", stringsAsFactors = FALSE, check.names = FALSE, encoding = "UTF-8")
}
read <- function(name) {
  frame <- suppressWarnings(table(name))
  # An empty text of a column that is never missing comes in as NA.
  for (column in intersect(c("solo_id", "performer"), names(frame))) {
    frame[[column]][is.na(frame[[column]])] <- ""
  }
  frame
}
solos <- read("solos")
solo_statistics <- read("solo_statistics")
phrase_statistics <- read("phrase_statistics")
norms <- read("norms")
phrase_norms <- read("phrase_norms")
departures <- read("departures")
contrasts <- read("contrasts")
mixtures <- read("mixtures")
trends <- read("trends")
catalogue <- read("statistics")
shares <- catalogue$key[catalogue$unit == "share"]

failures <- 0
compare <- function(what, theirs, ours, tolerance = 1e-9) {
  same <- (is.na(theirs) & is.na(ours)) |
    (!is.na(theirs) & !is.na(ours) & abs(theirs - ours) <= tolerance * pmax(1, abs(ours)))
  cat(sprintf("%-58s %6d compared, %d differ%s\n", what, length(theirs), sum(!same),
              if (all(is.na(theirs) | is.na(ours))) "" else
                sprintf(", most by %.1e", max(abs(theirs - ours), na.rm = TRUE))))
  if (length(theirs) == 0 || !all(same)) failures <<- failures + 1
}

# The values of a statistic in the corpus solos of a group, with their players.
values_by_statistic <- split(solo_statistics, solo_statistics$statistic)
members <- function(by, value) {
  corpus <- solos[solos$role == "corpus", ]
  if (by == "all") corpus else corpus[!is.na(corpus[[by]]) & corpus[[by]] == value, ]
}
group_values <- function(by, value, statistic) {
  of <- values_by_statistic[[statistic]]
  group <- members(by, value)
  merged <- data.frame(solo_id = group$solo_id, performer = group$performer,
                       value = of$value[match(group$solo_id, of$solo_id)],
                       stringsAsFactors = FALSE)
  merged[order(merged$solo_id), ]
}

# --- norms: Hyndman-Fan type 8, what is shown at which n, intervals of means
probabilities <- c(p05 = .05, p10 = .10, p25 = .25, p50 = .50, p75 = .75, p90 = .90, p95 = .95)
least <- c(p05 = 59, p10 = 29, p25 = 11, p50 = 6, p75 = 11, p90 = 29, p95 = 59)
made <- lapply(seq_len(nrow(norms)), function(i) {
  row <- norms[i, ]
  x <- group_values(row$group_by, row$group_value, row$statistic)$value
  defined <- x[!is.na(x)]
  n <- length(defined)
  quantiles <- if (n == 0) rep(NA, 7) else quantile(defined, probabilities, type = 8)
  quantiles[n < least] <- NA
  c(n, sum(is.na(x)), if (n) c(min(defined), max(defined), mean(defined),
    mad(defined, constant = 1)) else rep(NA, 4), quantiles)
})
made <- do.call(rbind, made)
columns <- c("n", "undefined", "minimum", "maximum", "mean", "median_absolute_deviation",
             names(probabilities))
for (i in seq_along(columns)) compare(paste0("norms.", columns[i]), norms[[columns[i]]], made[, i])

# The same over phrases, of the whole corpus and by style.
phrase_norms <- phrase_norms[phrase_norms$group_by %in% c("all", "style"), ]
phrases_by_statistic <- split(phrase_statistics, phrase_statistics$statistic)
made <- do.call(rbind, lapply(seq_len(nrow(phrase_norms)), function(i) {
  row <- phrase_norms[i, ]
  of <- phrases_by_statistic[[row$statistic]]
  x <- of$value[of$solo_id %in% members(row$group_by, row$group_value)$solo_id & !is.na(of$value)]
  quantiles <- if (length(x) == 0) rep(NA, 7) else quantile(x, probabilities, type = 8)
  quantiles[length(x) < least] <- NA
  c(length(x), if (length(x)) mean(x) else NA, quantiles)
}))
columns <- c("n", "mean", names(probabilities))
for (i in seq_along(columns)) {
  compare(paste0("phrase_norms.", columns[i]), phrase_norms[[columns[i]]], made[, i])
}

# The interval of a mean: the jackknife over players (solos below three players) with Student's t,
# and the studentized bootstrap where six units or more; whichever reaches further.
interval_rows <- norms[!is.na(norms$mean_low) & norms$group_by == "all", ]
set.seed(20)
studentized <- function(sums, counts, replicates) {
  k <- length(sums)
  estimate <- sum(sums) / sum(counts)
  error <- function(s, n, r) sqrt(sum((s - r * n)^2) * k / (k - 1)) / sum(n)
  t <- replicate(replicates, {
    drawn <- sample.int(k, replace = TRUE)
    r <- sum(sums[drawn]) / sum(counts[drawn])
    (r - estimate) / error(sums[drawn], counts[drawn], r)
  })
  list(estimate = estimate, error = error(sums, counts, estimate), t = t[is.finite(t)])
}
outside <- 0
checked <- 0
for (i in seq_len(nrow(interval_rows))) {
  row <- interval_rows[i, ]
  x <- group_values("all", "all", row$statistic)
  x <- x[!is.na(x$value), ]
  units <- if (length(unique(x$performer)) < 3) x$solo_id else x$performer
  sums <- as.vector(tapply(x$value, units, sum))
  counts <- as.vector(tapply(x$value, units, length))
  k <- length(sums)
  estimate <- sum(sums) / sum(counts)
  if (diff(range(x$value)) == 0) next
  without <- (sum(sums) - sums) / (sum(counts) - counts)
  half <- qt(.975, k - 1) * sqrt((k - 1) / k * sum((without - mean(without))^2))
  symmetric <- c(estimate - half, estimate + half)
  told <- c(row$mean_low, row$mean_high)
  # Limits of shares are kept within [0, 1].
  within <- function(limits) if (row$statistic %in% shares) pmin(pmax(limits, 0), 1) else limits
  if (k < 6) {
    outside <- outside + sum(abs(told - within(symmetric)) > 1e-9)
    checked <- checked + 2
    next
  }
  b <- studentized(sums, counts, 4000)
  # The limits of a run of 2000 draws lie, but for Monte-Carlo error, between those of R's draws at
  # probabilities so many standard errors to either side: with few players t comes in lumps, so a
  # standard error of the quantile itself would be too small or too large.
  error <- 5 * sqrt(.025 * .975 * (1 / 2000 + 1 / 4000))
  limit <- function(p) b$estimate - quantile(b$t, p, type = 7) * b$error
  lowest <- within(c(min(symmetric[1], limit(.975 + error)), max(symmetric[2], limit(.025 + error))))
  highest <- within(c(min(symmetric[1], limit(.975 - error)), max(symmetric[2], limit(.025 - error))))
  outside <- outside + sum(told < lowest - 1e-9 | told > highest + 1e-9)
  checked <- checked + 2
}
cat(sprintf("%-58s %6d compared, %d differ by more than 5 standard errors\n",
            "norms.mean_low and mean_high", checked, outside))
if (outside > 0) failures <- failures + 1

# --- departures: percentile ranks, effect sizes on phrases, Benjamini-Hochberg
rank <- sapply(seq_len(nrow(departures)), function(i) {
  row <- departures[i, ]
  100 * (row$norm_below + .5 * row$norm_equal) / row$norm_n
})
compare("departures.percentile_rank", departures$percentile_rank, rank)

wasserstein <- function(x, y) {
  at <- sort(unique(c(x, y)))
  sum(abs(ecdf(x)(at) - ecdf(y)(at))[-length(at)] * diff(at))
}
effects <- function(x, y) {
  differences <- outer(x, y, "-")
  # W as R has it; delta from it.
  w <- suppressWarnings(wilcox.test(x, y, exact = FALSE))$statistic
  c(2 * unname(w) / length(differences) - 1, median(differences), wasserstein(x, y))
}
phrases_of <- split(phrase_statistics[!is.na(phrase_statistics$value), ],
                    phrase_statistics$statistic[!is.na(phrase_statistics$value)])
pooled <- departures[!is.na(departures$cliffs_delta), ]
made <- t(sapply(seq_len(nrow(pooled)), function(i) {
  row <- pooled[i, ]
  of <- phrases_of[[row$statistic]]
  own <- solos$solo_id[solos$role == "student" & solos$student %in% row$student]
  effects(of$value[of$solo_id %in% own],
          of$value[of$solo_id %in% members(row$group_by, row$group_value)$solo_id])
}))
compare("departures.cliffs_delta (wilcox.test)", pooled$cliffs_delta, made[, 1])
compare("departures.shift (median of all differences)", pooled$shift, made[, 2])
compare("departures.wasserstein", pooled$wasserstein, made[, 3])

adjusted <- function(frame, family) {
  tested <- frame[!is.na(frame$p_value), ]
  key <- do.call(paste, c(tested[family], sep = "\r"))
  list(tested = tested, p = ave(tested$p_value, key, FUN = function(p) p.adjust(p, "BH")),
       m = ave(tested$p_value, key, FUN = length))
}
bh <- adjusted(departures[!is.na(departures$p_adjusted), ],
               c("student", "scope", "solo_id", "group_by", "group_value", "family"))
compare("departures.p_adjusted (p.adjust BH)", bh$tested$p_adjusted, bh$p)
compare("departures.tests", bh$tested$tests, bh$m)
clear <- departures$verdict %in% c("above", "below")
tested <- !is.na(departures$interval_low)
outside <- tested & (departures$value < departures$interval_low | departures$value > departures$interval_high)
compare("departures.verdict (outside its interval)", as.numeric(clear[tested]),
        as.numeric(outside[tested] & departures$verdict[tested] != "unreliable"))
compare("departures.level (clear exactly where p is at most it)",
        as.numeric(clear[tested & departures$verdict != "unreliable"]),
        as.numeric((departures$p_value <= departures$level)[tested & departures$verdict != "unreliable"]))

# --- contrasts: effect sizes on solos, permutation of players or solos
bh <- adjusted(contrasts, c("group_by", "first_group", "second_group"))
compare("contrasts.p_adjusted (p.adjust BH)", bh$tested$p_adjusted, bh$p)
tested <- contrasts[!is.na(contrasts$cliffs_delta), ]
pair <- function(row) {
  first <- group_values(row$group_by, row$first_group, row$statistic)
  second <- group_values(row$group_by, row$second_group, row$statistic)
  list(first = first[!is.na(first$value), ], second = second[!is.na(second$value), ])
}
made <- t(sapply(seq_len(nrow(tested)), function(i) {
  both <- pair(tested[i, ])
  effects(both$first$value, both$second$value)
}))
compare("contrasts.cliffs_delta (wilcox.test)", tested$cliffs_delta, made[, 1])
compare("contrasts.shift", tested$shift, made[, 2])
compare("contrasts.wasserstein", tested$wasserstein, made[, 3])
outside <- 0
some <- tested[tested$statistic %in% c("phrase_length_bars", "value_share_eighth",
                                       "landing_chord_tone_share", "leap_share"), ]
deals <- 2000
for (i in seq_len(nrow(some))) {
  both <- pair(some[i, ])
  values <- c(both$first$value, both$second$value)
  units <- if (some$dealt[i] == "players") c(both$first$performer, both$second$performer) else
    c(both$first$solo_id, both$second$solo_id)
  in_first <- rep(c(TRUE, FALSE), c(nrow(both$first), nrow(both$second)))
  ranks <- rank(values)
  delta <- function(first) {
    n <- sum(first)
    2 * (sum(ranks[first]) - n * (n + 1) / 2) / (n * (length(first) - n)) - 1
  }
  names <- unique(units)
  of_first <- names %in% units[in_first]
  observed <- abs(delta(in_first)) * (1 - 1e-9)
  ways <- choose(length(names), sum(of_first))
  if (ways <= 2000) {
    p <- mean(combn(length(names), sum(of_first),
                    function(chosen) abs(delta(units %in% names[chosen])) >= observed))
    outside <- outside + (abs(p - some$p_value[i]) > 1e-9)
  } else {
    large <- sum(replicate(deals, abs(delta(units %in% names[sample(of_first)])) >= observed))
    p <- (1 + large) / (1 + deals)
    outside <- outside +
      (abs(p - some$p_value[i]) > 5 * sqrt(2 * p * (1 - p) / deals) + 2 / deals)
  }
}
cat(sprintf("%-58s %6d compared, %d differ by more than 5 standard errors\n",
            "contrasts.p_value (permutation)", nrow(some), outside))
if (outside > 0) failures <- failures + 1

# --- mixtures: Jensen-Shannon, base 2
bits <- function(p, m) ifelse(p > 0, p * log2(p / m), 0)
m <- (mixtures$student_share + mixtures$group_share) / 2
parts <- (bits(mixtures$student_share, m) + bits(mixtures$group_share, m)) / 2
key <- with(mixtures, paste(student, scope, solo_id, group_by, group_value, mix, sep = "\r"))
compare("mixtures.contribution", mixtures$contribution, parts)
compare("mixtures.distance", mixtures$distance, sqrt(ave(parts, key, FUN = sum)))

# --- trends: the median of the slopes between all pairs of dates, per thirty days
slopes <- sapply(seq_len(nrow(trends)), function(i) {
  row <- trends[i, ]
  own <- solos[solos$role == "student" & solos$student %in% row$student &
                 !is.na(solos$date) & solos$phrases >= 3, ]
  of <- values_by_statistic[[row$statistic]]
  own <- own[of$n[match(own$solo_id, of$solo_id)] >= 3, ]
  y <- of$value[match(own$solo_id, of$solo_id)]
  x <- as.numeric(as.Date(own$date))[!is.na(y)]
  y <- y[!is.na(y)]
  if (length(unique(x)) < 3) return(NA)
  pairs <- combn(length(x), 2)
  dx <- x[pairs[2, ]] - x[pairs[1, ]]
  30 * median((y[pairs[2, ]] - y[pairs[1, ]])[dx != 0] / dx[dx != 0])
})
compare("trends.slope", trends$slope, slopes)

if (failures > 0) {
  cat("FAILED:", failures, "of the lines above\n")
  quit(status = 1)
}
cat("R", as.character(getRversion()), "finds the same.\n")
