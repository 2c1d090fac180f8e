"""Lists that leave the house: inventory, hours, log, as plain tables for CSV and paper."""
