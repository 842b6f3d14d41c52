# The questions of the seven notebooks in R, with nothing but base R:
#
#   Rscript phrase_census.R [EXPORT] [PLOTS.pdf]
#
# EXPORT is a folder that `phrase-census export` wrote (default: the folder above this file's). Every
# number that is also printed in the report is made anew from the tables and must agree, or the
# script ends with an error. The plots go into one PDF file.

arguments <- commandArgs(trailingOnly = TRUE)
export <- if (length(arguments) >= 1) arguments[[1]] else ".."
plots <- if (length(arguments) >= 2) arguments[[2]] else "phrase_census.pdf"

# A table from its CSV file: texts stay texts, the apostrophe before what could be a formula goes.
read_table <- function(name) {
  path <- file.path(export, "csv", paste0(name, ".csv"))
  raw <- read.csv(path, colClasses = "character", encoding = "UTF-8", check.names = FALSE,
                  na.strings = character(0))
  as.data.frame(lapply(raw, function(column) {
    filled <- column != ""
    if (any(filled) && !any(grepl("^'", column))) {
      column[!filled] <- NA
      typed <- type.convert(column, as.is = TRUE)
      if (!is.character(typed)) return(typed)
      column[!filled] <- ""
    }
    sub("^'", "", column)
  }), stringsAsFactors = FALSE)
}

has_table <- function(name) file.exists(file.path(export, "csv", paste0(name, ".csv")))

# Ends the script where a recomputed number is not the printed one.
same <- function(found, printed, what, tolerance = 1e-9) {
  found <- as.numeric(found)
  printed <- as.numeric(printed)
  if (length(found) != length(printed) ||
        !all((is.na(found) & is.na(printed)) | abs(found - printed) <= tolerance, na.rm = FALSE)) {
    stop("recomputed and printed differ: ", what)
  }
  cat("agrees:", what, paste0("(", length(found), ")"), "\n")
}

# Hyndman and Fan (1996), type 8.
type8 <- function(values, share) unname(quantile(values, share, type = 8, na.rm = TRUE))

solos <- read_table("solos")
solo_statistics <- read_table("solo_statistics")
norms <- read_table("norms")
statistics <- read_table("statistics")
corpus <- solos[solos$role == "corpus", ]

name_of <- function(statistic) {
  row <- statistics[statistics$key == statistic, ]
  if (row$unit == "none" || grepl(row$unit, row$name, fixed = TRUE)) row$name
  else paste0(row$name, " (", row$unit, ")")
}

# Values of one statistic over given solos, in their order.
values_of <- function(statistic, solo_ids) {
  rows <- solo_statistics[solo_statistics$statistic == statistic, ]
  rows$value[match(solo_ids, rows$solo_id)]
}

# The first grouping of the norms that is a column of its own.
grouping <- intersect(unique(norms$group_by), names(corpus))
by <- if ("style" %in% grouping) "style" else if (length(grouping)) grouping[[1]] else NA
group <- if (is.na(by)) rep("all", nrow(corpus)) else corpus[[by]]

check_norms <- function(values, statistic) {
  rows <- norms[norms$statistic == statistic & norms$group_by %in% c("all", by), ]
  stopifnot(nrow(rows) > 0)
  for (i in seq_len(nrow(rows))) {
    row <- rows[i, ]
    of_group <- if (row$group_by == "all") values else values[group == row$group_value]
    same(sum(!is.na(of_group)), row$n, paste("n of", statistic, row$group_value))
    for (share in c(0.25, 0.5, 0.75)) {
      printed <- row[[sprintf("p%02d", as.integer(100 * share))]]
      if (!is.na(printed)) {
        same(type8(of_group, share), printed, paste("quantile", share, "of", statistic,
                                                    row$group_value))
      }
    }
  }
}

# Colours that stay apart for readers with any kind of colour vision (Okabe and Ito 2008).
colours <- c("#0072B2", "#E69F00", "#009E73", "#CC79A7", "#56B4E9", "#D55E00", "#000000")
groups <- head(sort(unique(group[!is.na(group) & group != ""])), 7)
pdf(plots, width = 8, height = 4.5, encoding = "ISOLatin1")
par(mar = c(4.5, 4.5, 3, 1), las = 1)

cat("\n1. What is in this corpus?\n")
notes <- read_table("notes")
phrases <- read_table("phrases")
same(tabulate(match(notes$solo_id, solos$solo_id), nrow(solos)), solos$notes, "notes of each solo")
same(tabulate(match(phrases$solo_id, solos$solo_id), nrow(solos)), solos$phrases,
     "phrases of each solo")
of_all <- norms[norms$group_by == "all", ]
same(of_all$n + of_all$undefined, rep(nrow(corpus), nrow(of_all)), "solos of norms")
counts <- table(factor(group, groups))
barplot(counts, col = colours[seq_along(groups)], ylab = "solos",
        main = paste0("Solos of the corpus (n = ", nrow(corpus), ")"))

cat("\n2. How long are phrases, where do they start and end?\n")
of_corpus <- phrases[phrases$role == "corpus", ]
medians <- tapply(of_corpus$length_bars, factor(of_corpus$solo_id, corpus$solo_id), median,
                  na.rm = TRUE)
medians <- as.numeric(medians)
same(medians, values_of("phrase_length_bars", corpus$solo_id), "phrase_length_bars of each solo")
check_norms(medians, "phrase_length_bars")
boxplot(medians ~ factor(group, groups), col = "white", outline = FALSE,
        ylim = range(medians, na.rm = TRUE),
        xlab = if (is.na(by)) "" else by, ylab = "median phrase length of a solo (bars)",
        main = paste0("Phrase length, one value a solo (n = ", sum(!is.na(medians)), ")"))
stripchart(medians ~ factor(group, groups), vertical = TRUE, method = "jitter", pch = 16,
           col = colours[seq_along(groups)], add = TRUE)

cat("\n3. What do phrases land on?\n")
landings <- read_table("landings")
landings <- landings[landings$role == "corpus" & !is.na(landings$core_chord_tone), ]
# The share is of the notes that the line rests on: what is a chord arrival only stands aside.
rests <- landings[landings$landing_kinds != "[\"chord-arrival\"]", ]
share <- as.numeric(tapply(rests$core_chord_tone, factor(rests$solo_id, corpus$solo_id), mean))
same(share, values_of("landing_chord_tone_share", corpus$solo_id),
     "landing_chord_tone_share of each solo")
check_norms(share, "landing_chord_tone_share")
ends <- landings[grepl("\"phrase-end\"", landings$landing_kinds, fixed = TRUE), ]
degrees <- sort(table(ends$chord_degree), decreasing = TRUE)
barplot(degrees / sum(degrees), col = colours[[1]], xlab = "degree of the chord (b flat, # sharp)",
        ylab = "share", cex.names = 0.7,
        main = paste0("Last notes of phrases (n = ", nrow(ends), ")"))

cat("\n4. Note values and movement\n")
played <- notes[notes$role == "corpus", ]
eighth <- tapply(played$length_num == 1 & played$length_den == 2,
                 factor(played$solo_id, corpus$solo_id), mean)
eighth <- as.numeric(eighth)
same(eighth, values_of("value_share_eighth", corpus$solo_id), "value_share_eighth of each solo")
check_norms(eighth, "value_share_eighth")
density <- values_of("notes_per_bar", corpus$solo_id)
check_norms(density, "notes_per_bar")
place <- match(group, groups)
plot(density, eighth, pch = (15:18)[(place - 1) %% 4 + 1], col = colours[place],
     xlab = name_of("notes_per_bar"), ylab = name_of("value_share_eighth"),
     main = paste0("One mark a solo (n = ", sum(!is.na(density)), ")"))
legend("topleft", groups, pch = (15:18)[(seq_along(groups) - 1) %% 4 + 1],
       col = colours[seq_along(groups)], bty = "n")

cat("\n5. One student beside the corpus\n")
if (has_table("departures")) {
  departures <- read_table("departures")
}
if (has_table("departures") && nrow(departures) > 0) {
  student <- sort(unique(departures$student))[[1]]
  rows <- departures[departures$student == student & departures$group_by == "all" &
                       !is.na(departures$percentile_rank), ]
  # Ranks are among the corpus' values at the tempo of the student's solos.
  same(100 * (rows$norm_below + rows$norm_equal / 2) / rows$norm_n, rows$percentile_rank,
       "percentile ranks")
  first <- rows[rows$scope == "pooled" & !is.na(rows$place), ]
  first <- head(first[order(first$place), ], 6)
  par(mfrow = c(2, 3), mar = c(4.5, 2, 3, 1))
  for (i in seq_len(nrow(first))) {
    others <- values_of(first$statistic[[i]], corpus$solo_id)
    theirs <- values_of(first$statistic[[i]],
                        solos$solo_id[solos$role == "student" & solos$student == student])
    middle <- type8(others, c(0.25, 0.5, 0.75))
    plot(NA, xlim = range(others, theirs, na.rm = TRUE), ylim = c(-1, 1), yaxt = "n", ylab = "",
         xlab = name_of(first$statistic[[i]]), cex.lab = 0.8, cex.main = 0.8,
         main = paste0("corpus n = ", sum(!is.na(others)), ", student n = ", length(theirs),
                       " solos"))
    rect(middle[[1]], -0.4, middle[[3]], 0.4, col = "#cccccc", border = NA)
    segments(middle[[2]], -0.4, middle[[2]], 0.4, lwd = 2)
    points(theirs, rep(0, length(theirs)), pch = 18, col = colours[[6]])
  }
  par(mfrow = c(1, 1), mar = c(4.5, 4.5, 3, 1))
} else {
  cat("This study compares no students.\n")
}

cat("\n6. Two groups compared, with clusters respected\n")
contrasts <- if (has_table("contrasts")) read_table("contrasts") else data.frame()
row <- if (nrow(contrasts)) {
  contrasts[contrasts$group_by %in% by & contrasts$statistic == "phrase_length_bars" &
              !is.na(contrasts$p_value), ]
} else contrasts
if (nrow(row) > 0) {
  row <- row[order(-abs(row$cliffs_delta), row$first_group, row$second_group), ][1, ]
  sample_of <- function(name) {
    # A solo without a player's name counts as a player of its own.
    player <- ifelse(is.na(corpus$performer) | corpus$performer == "", corpus$solo_id,
                     corpus$performer)
    data <- data.frame(value = medians, player = player)[group == name, ]
    data[!is.na(data$value), ]
  }
  a <- sample_of(row$first_group)
  b <- sample_of(row$second_group)
  delta_of <- function(x, y) mean(sign(outer(x, y, "-")))
  same(delta_of(a$value, b$value), row$cliffs_delta, "Cliff's delta")
  same(median(outer(a$value, b$value, "-")), row$shift, "Hodges-Lehmann shift")
  # Whole players are drawn, each with all their solos, once for both groups.
  set.seed(20261125)
  players <- unique(c(a$player, b$player))
  of_a <- split(a$value, a$player)
  of_b <- split(b$value, b$player)
  deltas <- replicate(2000, {
    drawn <- sample(players, replace = TRUE)
    x <- unlist(of_a[drawn[drawn %in% names(of_a)]], use.names = FALSE)
    y <- unlist(of_b[drawn[drawn %in% names(of_b)]], use.names = FALSE)
    if (length(x) && length(y)) delta_of(x, y) else NA
  })
  interval <- quantile(deltas, c(0.025, 0.975), na.rm = TRUE)
  cat(sprintf("delta %.2f; players drawn: %.2f to %.2f; at one tempo: %.2f (%.2f to %.2f)\n",
              row$cliffs_delta, interval[[1]], interval[[2]], row$difference, row$difference_low,
              row$difference_high))
  stopifnot(interval[[1]] <= row$cliffs_delta, row$cliffs_delta <= interval[[2]])
  same(median(deltas, na.rm = TRUE), row$cliffs_delta, "middle of the drawn deltas", 0.1)
  pair <- contrasts[contrasts$group_by == by & contrasts$first_group == row$first_group &
                      contrasts$second_group == row$second_group & !is.na(contrasts$p_value), ]
  same(p.adjust(pair$p_value, "BH"), pair$p_adjusted, "adjusted p-values")
  same(pair$difference_low <= 0 & pair$difference_high >= 0, pair$p_value > 0.05,
       "intervals that hold 0 and p-values above .05")
  hist(deltas, breaks = 40, col = colours[[1]], border = "white", xlab = "Cliff's delta",
       ylab = "of 2,000 draws of players",
       main = paste0(name_of("phrase_length_bars"), ": ", row$first_group, " (n = ", nrow(a),
                     ") and ", row$second_group, " (n = ", nrow(b), ")"))
  abline(v = row$cliffs_delta, col = colours[[6]], lwd = 2)
  abline(v = interval, lty = 2)
} else {
  cat("This study has no two groups that were tested.\n")
}

cat("\n7. How much does the phrase rule matter?\n")
sensitivity <- if (has_table("sensitivity")) read_table("sensitivity") else data.frame()
if (nrow(sensitivity) > 0) {
  under <- read_table("rule_statistics")
  whole <- sensitivity[sensitivity$group_by == "all", ]
  usual <- whole$rule[whole$rule_of_study][[1]]
  of_rule <- function(rule, statistic) {
    rows <- under[under$rule == rule & under$statistic == statistic, ]
    if (nrow(rows) == 0) values_of(statistic, corpus$solo_id)
    else rows$value[match(corpus$solo_id, rows$solo_id)]
  }
  shown <- whole[!is.na(whole$p50), ]
  same(mapply(function(r, s) type8(of_rule(r, s), 0.5), shown$rule, shown$statistic), shown$p50,
       "medians under every rule")
  others <- whole[!whole$rule_of_study & !is.na(whole$median_shift_spreads), ]
  # The largest shift is drawn last, at the top.
  most <- rev(head(names(sort(tapply(abs(others$median_shift_spreads), others$statistic, max),
                              decreasing = TRUE)), 12))
  rules <- sort(unique(others$rule))
  par(mar = c(4.5, 14, 3, 9), xpd = FALSE)
  plot(NA, xlim = range(others$median_shift_spreads), ylim = c(1, length(most)), yaxt = "n",
       ylab = "", xlab = "shift of the median in robust standard deviations",
       main = paste0("The study's rule is ", usual, " (n = ", nrow(corpus), " solos)"))
  axis(2, seq_along(most), statistics$name[match(most, statistics$key)], cex.axis = 0.7)
  abline(v = 0)
  for (i in seq_along(rules)) {
    rows <- others[others$rule == rules[[i]], ]
    points(rows$median_shift_spreads[match(most, rows$statistic)], seq_along(most),
           pch = 14 + i, col = colours[[(i - 1) %% 7 + 1]])
  }
  legend(par("usr")[[2]], par("usr")[[4]], rules, pch = 14 + seq_along(rules),
         col = colours[seq_along(rules)], bty = "n", cex = 0.7, xpd = TRUE)
} else {
  cat("This study asks for no sensitivity: add 'sensitivity: [RULE, ...]' to its settings.\n")
}

invisible(dev.off())
cat("\nAll numbers agree. Plots:", plots, "\n")
