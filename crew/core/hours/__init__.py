"""Hours of calls: worked, paid, and counted toward overtime. Three values, never one made from another.

    reading_times, reading_rules   a table of times and a house's rules → records, problems by line or JSON path
    rounding, meals                stretches of work: what is a break, what is a clock's rounding
    pieces                         a stretch cut where clocks, days, nights and late meals change what it is
    overtime, combine              which rate a piece has
    minimums                       what is paid beyond what was worked
    rest, notice                   what stands between calls, and before them
    counting, weeks                a person's calls in their order, week by week

No number here is a law: every one is a setting of the house, and a key left out is a rule that does not apply. No
money: rates are multiples of a straight hour.
"""
