"""The language of the bench: grammar, nodes, evaluation, advice, and sizes with words around them."""
