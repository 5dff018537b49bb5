"""What is worked out of sizes: spacings, arcs, packs, fits."""
