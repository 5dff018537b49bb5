"""The answers to the requests; each module's ANSWERS gives its words, and loads when one is used."""
