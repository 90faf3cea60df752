# Only for a test: a language with a decimal comma, days before months and other plurals.
language-tag = pl
date-and-time-pattern = %d.%m.%Y, %H:%M
date-pattern = %d.%m.%Y
decimal-sign = ,
digit-group = .
enter-wait-next = { $n ->
    [one] jedna
    [few] kilka
   *[other] wiele
}
nav = Warsztat
