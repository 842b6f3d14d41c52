# Recomputes the statistics of an exported study in base R and compares them with its tables:
#   Rscript .ci/statistics.R EXPORT
# Quantiles, effect sizes, Jensen-Shannon distances, slopes and adjusted p-values have to agree to
# 1e-9; what rests on random draws, to five Monte-Carlo standard errors of both sides.
# A student's departures are made anew from the values and tempos in the export and the shipped
# figures of this project, by whole covariance matrices where the project has sums: values, tempo
# slopes, mixture, p, interval, band, reliability and questions. Not made anew here: the intervals of
# effect sizes on phrases, the place in which something is told, and departures of students some of
# whose solos stand in the corpus. Whether the method does on real players what it promises is not
# asked here either; that is the command that leaves players out.
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

# --- departures: the values, the mixture and what follows from it, made anew
here <- dirname(sub("^--file=", "", grep("^--file=", commandArgs(FALSE), value = TRUE)))
shipped <- read.csv(file.path(here, "../jobs/music/src/main/resources/phrasecensus/music/comparison",
                              "shipped.csv"), comment.char = "#", stringsAsFactors = FALSE)
manifest <- paste(readLines(file.path(arguments[1], "manifest.json"), warn = FALSE), collapse = " ")
first_column <- sub('.*"by" *: *\\[ *"([^"]*)".*', "\\1", manifest)
forward <- function(scale, x, n) {
  y <- suppressWarnings(switch(scale, share = asin(sqrt((x * n + 3 / 8) / (n + 3 / 4))),
                               log = log(x), root = sqrt(x), plain = x))
  ifelse(is.finite(y), y, NA)
}
backward <- function(scale, y, n) {
  switch(scale, log = exp(y), root = pmax(y, 0)^2, plain = pmax(y, 0),
         share = pmin(1, pmax(0, (sin(pmin(pi / 2, pmax(0, y)))^2 * (n + 3 / 4) - 3 / 8) / n)))
}
grid <- c(0, .025, seq(.05, .9, by = .05))
normalised <- function(logarithms) {
  weights <- exp(logarithms - max(logarithms))
  weights / sum(weights)
}
prior_of <- function(mean) {
  nu <- mean * (1 - mean) / .12^2 - 1
  edges <- c(0, (head(grid, -1) + tail(grid, -1)) / 2, .95)
  diff(pbeta(edges, nu * mean, nu * (1 - mean))) /
    diff(pbeta(c(0, .95), nu * mean, nu * (1 - mean)))
}
# Mean, its information, squares and half the logarithm of the determinant at every correlation.
generalised <- function(z, player, v) {
  same <- outer(player, player, "==")
  as.data.frame(t(sapply(grid, function(rho) {
    covariance <- rho * same + (1 - rho) * diag(v, length(z))
    inverse <- chol2inv(chol(covariance))
    mean <- sum(inverse %*% z) / sum(inverse)
    c(mean = mean, information = sum(inverse),
      squares = drop(t(z - mean) %*% inverse %*% (z - mean)),
      half = (as.numeric(determinant(covariance)$modulus) - sum(log(v))) / 2)
  })))
}
# The solos of some statistic with a value that is compared.
compared_solos <- function(statistic, ids) {
  figures <- shipped[shipped$key == statistic, ]
  of <- values_by_statistic[[statistic]]
  of <- of[match(ids, of$solo_id), ]
  solo <- solos[match(ids, solos$solo_id), ]
  count <- pmin(solo$phrases, of$n)
  frame <- data.frame(id = ids, x = forward(figures$transform, of$value, of$n), n = of$n,
                      count = count, tempo = solo$tempo_qpm, stringsAsFactors = FALSE)
  frame$v <- 1 - figures$noise_share + figures$noise_share * 19 / count
  frame$player <- ifelse(solo$performer %in% c("", NA), paste0("?", ids), solo$performer)
  frame[!is.na(frame$x) & !is.na(count) & count >= 3, ]
}
corpus_ids <- solos$solo_id[solos$role == "corpus"]
basis <- function(tempo, range) {
  u <- log2(pmin(range[2], pmax(range[1], tempo)) / 170)
  cbind(u, u^2)
}
models <- new.env()
# A statistic of the corpus by one column: tempo taken out of every solo.
model <- function(statistic, column, take_tempo) {
  key <- paste(statistic, column, take_tempo, sep = "\r")
  if (!is.null(models[[key]])) return(models[[key]])
  figures <- shipped[shipped$key == statistic, ]
  frame <- compared_solos(statistic, corpus_ids)
  range <- range(figures$tempo_low, figures$tempo_high,
                 solos$tempo_qpm[solos$role == "corpus"], na.rm = TRUE)
  value <- solos[[column]][match(frame$id, solos$solo_id)]
  frame$group <- ifelse(is.na(value), "", value)
  w <- 1 / frame$v
  b <- basis(frame$tempo, range)
  take_tempo <- take_tempo && !all(is.na(b[, 1]))
  shipped_slope <- c(figures$slope_1, figures$slope_2)
  information <- matrix(c(figures$info_11, figures$info_12, figures$info_12, figures$info_22), 2)
  left <- 40 * information
  right <- 40 * drop(information %*% shipped_slope)
  for (group in unique(frame$group)) {
    of <- frame$group == group
    known <- of & !is.na(b[, 1])
    if (!any(known)) next
    mean <- colSums(w[known] * b[known, , drop = FALSE]) / sum(w[known])
    for (i in which(of & is.na(b[, 1]))) b[i, ] <- mean
    mean <- colSums(w[of] * b[of, , drop = FALSE]) / sum(w[of])
    centred <- sweep(b[of, , drop = FALSE], 2, mean)
    left <- left + t(centred) %*% (w[of] * centred)
    right <- right + drop(t(centred) %*% (w[of] * (frame$x[of] - weighted.mean(frame$x[of], w[of]))))
  }
  slope <- if (take_tempo) solve(left, right) else c(0, 0)
  # A group wholly without tempo stands at the mean of all, and does not speak for others.
  frame$speaks <- !take_tempo | !is.na(b[, 1])
  overall <- colSums((w * b)[!is.na(b[, 1]), , drop = FALSE]) / sum(w[!is.na(b[, 1])])
  for (i in which(is.na(b[, 1]))) b[i, ] <- overall
  frame$r <- frame$x - if (take_tempo) drop(b %*% slope) else 0
  models[[key]] <- list(frame = frame, slope = slope, range = range,
                        prior = prior_of(figures$rho_prior_mean), scale = figures$transform)
  models[[key]]
}
silent <- function(freedom) list(groups = 0, freedom = freedom)
others_of <- function(m, group) {
  frame <- m$frame[m$frame$group != group & m$frame$group != "" & m$frame$speaks, ]
  frame <- frame[frame$group %in% names(which(base::table(frame$group) >= 6)), ]
  names <- sort(unique(frame$group))
  freedom <- nrow(frame) - length(names)
  if (freedom < 20) return(silent(freedom))
  parts <- lapply(names, function(name) with(frame[frame$group == name, ], generalised(r, player, v)))
  squares <- Reduce(`+`, lapply(parts, `[[`, "squares"))
  if (min(squares) <= 1e-18) return(silent(freedom))
  minus <- Reduce(`+`, lapply(parts, function(part) part$half + log(part$information) / 2))
  weight <- normalised(log(m$prior) - freedom / 2 * log(squares) - minus)
  list(groups = length(names), freedom = freedom, variance = sum(weight * squares / freedom),
       within = sum(weight * squares / freedom * (1 - grid)),
       mean = mean(sapply(parts, function(part) sum(weight * part$mean))))
}
mixtures_of_groups <- new.env()
# The cells of a group's mixture; NULL where there is no ground for a test.
mixture <- function(m, key, by, value) {
  if (!is.null(mixtures_of_groups[[key]])) return(mixtures_of_groups[[key]])
  frame <- if (by == "all") m$frame else m$frame[m$frame$group == value, ]
  others <- if (by == "all") silent(0) else others_of(m, value)
  n <- nrow(frame)
  speak <- others$groups > 0
  cells <- NULL
  if (n > 0 && length(unique(frame$player)) == 1 && !startsWith(frame$player[1], "?")) {
    w <- 1 / frame$v
    centre <- weighted.mean(frame$r, w)
    squares <- (if (speak) 10 * others$within else 0) + sum(w * (frame$r - centre)^2)
    freedom <- (if (speak) 10 else 0) + n - 1
    if (n >= 3 && squares > 1e-18) {
      cells <- list(rho = 0, centre = centre, variance = squares / freedom, of_centre = 1 / sum(w),
                    weight = 1, freedom = freedom)
    }
  } else if (n >= (if (speak) 6 else 11)) {
    g <- generalised(frame$r, frame$player, frame$v)
    told <- if (speak) 10 * others$variance else 0
    if (min(told + g$squares) > 1e-18) {
      pulls <- if (speak) c(9, 3, 1, .1) * others$groups / (others$groups + 1) else 0
      freedom <- if (speak) 10 + n else n - 1
      each <- lapply(seq_along(pulls), function(i) {
        pull <- pulls[i]
        squares <- told + g$squares
        if (speak) squares <- squares + (g$mean - others$mean)^2 / (1 / g$information + 1 / pull)
        information <- g$information + pull
        toward <- if (speak) pull * others$mean else 0
        data.frame(rho = grid, centre = (g$information * g$mean + toward) / information,
                   variance = squares / freedom, of_centre = 1 / information,
                   l = log(m$prior) - freedom / 2 * log(squares) - g$half +
                     if (speak) log(c(.5, .2, .2, .1)[i]) + log(pull / information) / 2
                     else -log(information) / 2)
      })
      each <- do.call(rbind, each)
      cells <- c(as.list(each), list(weight = normalised(each$l), freedom = freedom))
    }
  }
  mixtures_of_groups[[key]] <- list(cells = cells, others = others, frame = frame)
  mixtures_of_groups[[key]]
}
tail_beyond <- function(cells, y, omega, freedom, lower) {
  deviation <- sqrt(cells$variance * (cells$rho + (1 - cells$rho) / omega + cells$of_centre))
  sum(cells$weight * pt((y - cells$centre) / deviation, freedom, lower.tail = lower))
}
end_at <- function(cells, omega, freedom, level, lower) {
  deviation <- sqrt(cells$variance * (cells$rho + (1 - cells$rho) / omega + cells$of_centre))
  own <- cells$centre + (if (lower) -1 else 1) * qt(1 - level / 2, freedom) * deviation
  if (diff(range(own)) < 1e-14) return(own[1])
  uniroot(function(y) tail_beyond(cells, y, omega, freedom, lower) - level / 2,
          range(own) + c(-1e-9, 1e-9), tol = 1e-14, maxiter = 1000)$root
}
own <- departures[departures$left_out == 0 & departures$left_out_as_player == 0, ]
made <- t(sapply(seq_len(nrow(own)), function(i) {
  row <- own[i, ]
  column <- if (row$group_by == "all") first_column else row$group_by
  ids <- if (row$scope == "solo") row$solo_id else
    solos$solo_id[solos$role == "student" & solos$student %in% row$student]
  m <- model(row$statistic, column, row$tempo_taken_out)
  group <- mixture(m, paste(row$statistic, row$group_by, row$group_value, row$tempo_taken_out,
                            sep = "\r"), row$group_by, row$group_value)
  theirs <- compared_solos(row$statistic, ids)
  k <- nrow(theirs)
  if (k == 0) return(c(0, rep(NA, 4), nrow(group$frame), rep(NA, 4), 0))
  b <- basis(theirs$tempo, m$range)
  w <- 1 / theirs$v
  omega <- sum(w)
  added <- if (row$tempo_taken_out) sum(w * drop(b %*% m$slope)) / omega else 0
  y <- sum(w * theirs$x) / omega - added
  n <- 1 / mean(1 / theirs$n)
  shown <- function(place) backward(m$scale, place + added, n)
  band <- if (nrow(group$frame)) quantile(group$frame$r, c(.25, .5, .75), type = 8) else rep(NA, 3)
  if (nrow(group$frame) < 11) band[c(1, 3)] <- NA
  result <- c(k, shown(y), shown(band), nrow(group$frame))
  cells <- group$cells
  if (is.null(cells)) return(c(result, rep(NA, 4), sum(theirs$count)))
  of_others <- group$others$freedom
  caps <- if (of_others < 20) c(8, 10, 15) else if (of_others < 100) c(10, 15, Inf) else
    c(15, 20, Inf)
  freedom <- min(cells$freedom, caps[min(k, 3)])
  p <- min(1, 2 * min(tail_beyond(cells, y, omega, freedom, TRUE),
                      tail_beyond(cells, y, omega, freedom, FALSE)))
  c(result, p, (y - sum(cells$weight * cells$centre)) / sqrt(sum(cells$weight * cells$variance)),
    shown(end_at(cells, omega, freedom, row$level, TRUE)),
    shown(end_at(cells, omega, freedom, row$level, FALSE)),
    sum(theirs$count))
}))
columns <- c("solos", "value", "band_low", "band_median", "band_high", "norm_n", "p_value", "distance",
             "interval_low", "interval_high", "phrases")
for (i in seq_along(columns)) {
  compare(paste0("departures.", columns[i], " (made anew)"), own[[columns[i]]], made[, i])
}

# How reliable a value is, by halves of the solos, tempo centred by the first column; shipped where
# the study has too few.
halves <- new.env()
for_half <- function(statistic, column, take_tempo) {
  key <- paste(statistic, column, take_tempo, sep = "\r")
  if (!is.null(halves[[key]])) return(halves[[key]])
  m <- model(statistic, column, take_tempo)
  of <- values_by_statistic[[statistic]]
  of <- of[match(m$frame$id, of$solo_id), ]
  phrases <- solos$phrases[match(m$frame$id, solos$solo_id)]
  first <- ceiling(phrases / 2)
  second <- floor(phrases / 2)
  odd <- forward(m$scale, of$odd_value, pmax(1, of$n * first / phrases))
  even <- forward(m$scale, of$even_value, pmax(1, of$n * second / phrases))
  # r is x less what tempo adds; the same goes for the halves.
  tempo <- m$frame$x - m$frame$r
  known <- !is.na(odd) & !is.na(even) & second >= 2
  a <- sum((odd - even)[known]^2) / sum((1 / first + 1 / second)[known])
  together <- cov((odd - tempo)[known], (even - tempo)[known])
  figures <- shipped[shipped$key == statistic, ]
  halves[[key]] <- if (sum(known) < 60 || a == 0) figures$phrases_for_half else
    if (together > 0) a / together else NA
  halves[[key]]
}
made <- sapply(seq_len(nrow(own)), function(i) {
  row <- own[i, ]
  for_half(row$statistic, first_column, TRUE)
})
compare("departures.phrases_for_half (made anew)", own$phrases_for_half, made)
needed <- ifelse(is.na(departures$phrases_for_half), Inf, departures$phrases_for_half)
compare("departures.reliability", departures$reliability,
        departures$phrases / (departures$phrases + needed))

# Who is tested with whom, at which level, and the questions from their headlines.
headline <- catalogue$headline[match(departures$statistic, catalogue$key)]
family <- ifelse(is.na(departures$p_value), "", ifelse(headline, "headlines",
                 ifelse(departures$phrases >= needed, "others", "")))
told <- ifelse(is.na(departures$family), "", departures$family)
compare("departures.family", as.numeric(factor(told, c("", "headlines", "others"))),
        as.numeric(factor(family, c("", "headlines", "others"))))
scope <- with(departures, paste(student, scope, solo_id, group_by, group_value, sep = "\r"))
level <- ifelse(is.na(departures$p_value), NA, .05)
for (rows in split(which(family != ""), paste(scope, family)[family != ""])) {
  rejected <- sum(p.adjust(departures$p_value[rows], "BH") <= .05)
  level[rows] <- .05 * max(1, rejected) / length(rows)
}
compare("departures.level (.05 of the family)", departures$level, level)
together <- differs <- rep(NA_real_, nrow(departures))
adjusted_question <- rep(NA_real_, nrow(departures))
for (rows in split(which(family == "headlines"), scope[family == "headlines"])) {
  p <- tapply(pmin(.9, pmax(1e-15, departures$p_value[rows])), departures$facet[rows],
              function(p) .5 - atan(mean(tan((.5 - p) * pi))) / pi)
  alone <- tapply(departures$p_value[rows] <= level[rows], departures$facet[rows], any)
  at <- match(departures$facet[rows], names(p))
  adjusted_question[rows] <- p.adjust(p, "BH")[at]
  together[rows] <- (p <= .05 * max(1, sum(p.adjust(p, "BH") <= .05)) / length(p))[at]
  differs[rows] <- pmax(together[rows], alone[at])
}
compare("departures.question_p_adjusted (Cauchy, BH)", departures$question_p_adjusted,
        adjusted_question)
compare("departures.question_together", as.numeric(departures$question_together), together)
compare("departures.question_differs", as.numeric(departures$question_differs), differs)

# --- contrasts: effect sizes on solos; differences at one tempo, players and solos dealt
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
# Two means, players of both groups tying them together, from the whole covariance matrix of both.
both_groups <- function(row) {
  m <- model(row$statistic, row$group_by, row$tempo_taken_out)
  frame <- m$frame[m$frame$group %in% c(row$first_group, row$second_group), ]
  frame$first <- frame$group == row$first_group
  list(m = m, frame = frame[order(!frame$first, frame$id), ])
}
two_means <- function(inverse, first, z) {
  design <- cbind(first, !first)
  spread <- solve(t(design) %*% inverse %*% design)
  mean <- drop(spread %*% (t(design) %*% (inverse %*% z)))
  list(mean = mean, difference = mean[1] - mean[2],
       error = sqrt(spread[1, 1] + spread[2, 2] - 2 * spread[1, 2]), spread = spread)
}
covariance_at <- function(frame, rho) {
  rho * outer(frame$player, frame$player, "==") + (1 - rho) * diag(frame$v, nrow(frame))
}
contrasted <- contrasts[!is.na(contrasts$difference), ]
made <- t(sapply(seq_len(nrow(contrasted)), function(i) {
  row <- contrasted[i, ]
  both <- both_groups(row)
  frame <- both$frame
  freedom <- nrow(frame) - 2
  each <- sapply(grid, function(rho) {
    covariance <- covariance_at(frame, rho)
    inverse <- chol2inv(chol(covariance))
    fit <- two_means(inverse, frame$first, frame$r)
    apart <- frame$r - ifelse(frame$first, fit$mean[1], fit$mean[2])
    squares <- drop(t(apart) %*% inverse %*% apart)
    c(squares, -freedom / 2 * log(squares) - as.numeric(determinant(covariance)$modulus) / 2 +
        as.numeric(determinant(fit$spread)$modulus) / 2)
  })
  weight <- normalised(log(both$m$prior) + each[2, ])
  rho <- sum(weight * grid)
  deviation <- sqrt(sum(weight * each[1, ]) / freedom)
  fit <- two_means(chol2inv(chol(covariance_at(frame, rho))), frame$first, frame$r)
  w <- 1 / frame$v
  middle <- mean(fit$mean) + sum(w * (frame$x - frame$r)) / sum(w)
  shown <- function(difference) {
    n <- 1 / mean(1 / frame$n)
    backward(both$m$scale, middle + difference / 2, n) -
      backward(both$m$scale, middle - difference / 2, n)
  }
  c(rho, fit$difference / deviation, shown(fit$difference), shown(row$effect_low * deviation),
    shown(row$effect_high * deviation), sum(startsWith(frame$player, "?")))
}))
columns <- c("correlation", "effect", "difference", "difference_low", "difference_high",
             "unnamed_solos")
for (i in seq_along(columns)) {
  compare(paste0("contrasts.", columns[i], " (made anew)"), contrasted[[columns[i]]], made[, i])
}
# Players are dealt, and solos within players of both groups. What is dealt is counted in its own
# standard deviations, its mean is projected out, and the reflection that takes the mean's direction
# to that of equal parts makes all parts alike. At either end of the interval as many deals lie
# beyond as its level says.
alike <- function(values, covariance) {
  n <- length(values)
  own <- diag(1 / sqrt(diag(covariance)), n)
  mean <- drop(own %*% rep(1, n))
  mean <- mean / sqrt(sum(mean^2))
  normal <- mean - 1 / sqrt(n)
  turn <- diag(n)
  if (sum(normal^2) > 1e-18) turn <- turn - 2 * outer(normal, normal) / sum(normal^2)
  drop(turn %*% (diag(n) - outer(mean, mean)) %*% own %*% values)
}
outside <- 0
some <- contrasted[!is.na(contrasted$p_value) &
  contrasted$statistic %in% c("phrase_length_bars", "value_share_eighth",
                              "landing_chord_tone_share", "leap_share"), ]
for (i in seq_len(nrow(some))) {
  row <- some[i, ]
  both <- both_groups(row)
  frame <- both$frame
  covariance <- covariance_at(frame, row$correlation)
  labels <- as.numeric(frame$first)
  averaged <- t(sapply(unique(frame$player), function(name) {
    w <- (frame$player == name) / frame$v
    w / sum(w)
  }))
  of_players <- averaged %*% covariance %*% t(averaged)
  parts <- list(list(z = alike(drop(averaged %*% frame$r), of_players),
                     b = alike(drop(averaged %*% labels), of_players)))
  for (name in unique(frame$player)) {
    at <- which(frame$player == name)
    if (length(unique(labels[at])) == 2) {
      within <- (1 - row$correlation) * diag(frame$v[at])
      parts <- c(parts, list(list(z = alike(frame$r[at], within), b = alike(labels[at], within))))
    }
  }
  information <- sum(sapply(parts, function(part) sum(part$b^2)))
  difference <- sum(sapply(parts, function(part) sum(part$b * part$z))) / information
  fits <- replicate(600, rowSums(sapply(parts, function(part) {
    b <- part$b[sample.int(length(part$b))]
    c(sum(b * part$z), sum(b * part$b))
  }))) / information
  # The difference of generalised least squares, from the whole covariance matrix.
  whole <- two_means(chol2inv(chol(covariance)), frame$first, frame$r)
  outside <- outside + (abs(whole$difference - difference) > 1e-9)
  deviation <- difference / row$effect
  for (supposed in c(0, row$effect_low * deviation, row$effect_high * deviation)) {
    far <- abs(difference - supposed) * (1 - 1e-9)
    p <- (1 + sum(abs(fits[1, ] - supposed * fits[2, ]) >= far)) / 601
    expected <- if (supposed == 0) row$p_value else .05
    # An end lies at the first deal beyond .05, which is a step of its own where deals are few.
    tolerance <- 5 * sqrt(p * (1 - p) * (1 / 600 + 1 / row$deals)) + 2 / 600 +
      (if (supposed == 0) 0 else 4 / row$deals)
    outside <- outside + (abs(p - expected) > tolerance)
  }
}
cat(sprintf("%-58s %6d compared, %d differ by more than 5 standard errors\n",
            "contrasts.p_value and ends (dealt again)", 3 * nrow(some), outside))
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
