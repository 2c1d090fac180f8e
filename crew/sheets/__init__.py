"""Paper: plain records in, PDF bytes out. Nothing here runs a query or reads a clock."""
