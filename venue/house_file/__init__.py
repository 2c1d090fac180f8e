"""The house file: one house as JSON, read, checked, stored and written.

    bytes --parsing--> JSON --shape, checking--> sound JSON --reading--> HouseFile --storing--> rows
    text  <--writing-- HouseFile <--gathering-- rows

Reading needs no database. `house.schema.json` is the format; what a schema can't say is in `checking`.
"""
