"""The language of the bench: grammar, evaluation, requests."""
