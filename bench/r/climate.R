# The yearly figures, SPI and trends of climate_bench.cpp in base R, on the same days.
#
# Rscript --vanilla bench/r/climate.R DAYS.csv RESULTS.csv
#
# DAYS.csv: station, date, rain. Prints "seconds S": processor time of the computing alone, without
# starting R and reading. Written as a careful R user would: whole-vector operations, no packages.

arguments <- commandArgs(trailingOnly = TRUE)
days <- read.csv(arguments[1], stringsAsFactors = FALSE)
days$date <- as.Date(days$date)

longest <- function(flags) {
  runs <- rle(flags)
  if (any(runs$values)) max(runs$lengths[runs$values]) else 0
}

year_figures <- function(rain, year) {
  wet <- sort(rain[rain >= 1])
  r95 <- wet[floor(0.95 * (length(wet) - 1)) + 1]
  five <- as.numeric(stats::filter(c(0, 0, 0, 0, rain), rep(1, 5), sides = 1))[-(1:4)]
  by_year <- function(x, f) as.numeric(tapply(x, year, f))
  on_wet <- ifelse(rain >= 1, rain, 0)
  data.frame(
    year = sort(unique(year)),
    total = round(by_year(rain, sum), 6), prcptot = by_year(on_wet, sum),
    sdii = by_year(on_wet, sum) / by_year(rain >= 1, sum),
    rx1day = by_year(rain, max), rx5day = by_year(five, max),
    r10 = by_year(rain >= 10, sum), r20 = by_year(rain >= 20, sum),
    cdd = by_year(rain < 1, longest), cwd = by_year(rain >= 1, longest),
    r95ptot = by_year(ifelse(rain > r95, rain, 0), sum))
}

# Hosking's rational approximation from the first two L-moments.
gamma_by_lmoments <- function(x) {
  x <- sort(x)
  n <- length(x)
  b0 <- mean(x)
  b1 <- sum((seq_len(n) - 1) / (n - 1) * x) / n
  cv <- (2 * b1 - b0) / b0
  if (cv < 0.5) {
    t <- pi * cv^2
    shape <- (1 - 0.3080 * t) / (t * (1 + t * (-0.05812 + t * 0.01765)))
  } else {
    t <- 1 - cv
    shape <- t * (0.7213 - t * 0.5947) / (1 + t * (-2.1817 + t * 1.2113))
  }
  list(shape = shape, scale = b0 / shape)
}

spi <- function(monthly, scale) {
  sums <- as.numeric(stats::filter(monthly, rep(1, scale), sides = 1))
  result <- rep(NA_real_, length(sums))
  for (month in 1:12) {
    places <- seq(month, length(sums), by = 12)
    places <- places[!is.na(sums[places])]
    x <- sums[places]
    n <- length(x)
    m <- sum(x == 0)
    fit <- gamma_by_lmoments(x[x > 0])
    q <- m / (n + 1)
    p <- ifelse(x > 0, q + (1 - q) * pgamma(x, fit$shape, scale = fit$scale), (m + 1) / (2 * (n + 1)))
    result[places] <- qnorm(pmin(pmax(p, 1e-9), 1 - 1e-9))
  }
  result
}

mann_kendall <- function(x) {
  n <- length(x)
  signs <- sign(outer(x, x, "-"))
  s <- sum(signs[lower.tri(signs)])
  ties <- as.numeric(table(x))
  v <- (n * (n - 1) * (2 * n + 5) - sum(ties * (ties - 1) * (2 * ties + 5))) / 18
  z <- if (s == 0) 0 else (s - sign(s)) / sqrt(v)
  list(s = s, var = v, p = 2 * pnorm(-abs(z)))
}

sen <- function(t, x) {
  run <- outer(t, t, "-")
  slopes <- (outer(x, x, "-") / run)[lower.tri(run)]
  median(slopes)
}

# Variance widened by the autocorrelation of the ranks at lags 1 to 3 (Hamed & Rao 1998).
hamed_rao <- function(x, slope, lags = 3) {
  n <- length(x)
  ranks <- rank(x - slope * seq_len(n))
  r <- stats::acf(ranks, lag.max = lags, plot = FALSE)$acf[-1]
  r[abs(r) < qnorm(0.975) / sqrt(n)] <- 0
  k <- seq_len(lags)
  1 + 2 / (n * (n - 1) * (n - 2)) * sum((n - k) * (n - k - 1) * (n - k - 2) * r)
}

pettitt <- function(x) {
  n <- length(x)
  u <- 2 * cumsum(rank(x)) - seq_len(n) * (n + 1)
  max(abs(u))
}

station_results <- function(one) {
  year <- as.integer(format(one$date, "%Y"))
  month <- as.integer(format(one$date, "%m"))
  years <- year_figures(one$rain, year)
  monthly <- as.numeric(rowsum(one$rain, year * 12 + month - 1))
  index <- sapply(c(1, 3, 6, 12, 24), function(scale) spi(monthly, scale))
  trend <- lapply(c("total", "rx1day", "cdd", "sdii"), function(what) {
    x <- years[[what]]
    slope <- sen(years$year, x)
    test <- mann_kendall(x)
    c(test$s, test$var, test$p, slope, hamed_rao(x, slope), pettitt(x))
  })
  list(years = years, index = index, trend = trend)
}

begin <- sum(proc.time()[1:2])
results <- lapply(split(days, days$station), station_results)
seconds <- sum(proc.time()[1:2]) - begin

checks <- do.call(rbind, lapply(names(results), function(name) {
  one <- results[[name]]
  n <- nrow(one$index)
  data.frame(station = name,
             total = sum(one$years$total), prcptot = sum(one$years$prcptot), sdii = sum(one$years$sdii),
             rx1day = sum(one$years$rx1day), rx5day = sum(one$years$rx5day), r10 = sum(one$years$r10),
             r20 = sum(one$years$r20), cdd = sum(one$years$cdd), cwd = sum(one$years$cwd),
             r95ptot = sum(one$years$r95ptot),
             spi1 = one$index[n, 1], spi3 = one$index[n, 2], spi6 = one$index[n, 3],
             spi12 = one$index[n, 4], spi24 = one$index[n, 5],
             s = one$trend[[1]][1], p = one$trend[[1]][3], slope = one$trend[[1]][4], k = one$trend[[1]][6])
}))
write.csv(format(checks, digits = 15), arguments[2], row.names = FALSE, quote = FALSE)
cat("seconds", seconds, "\n")
