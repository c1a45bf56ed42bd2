"""Words that every room uses: places, problems, quantities, strict TOML. Imports nothing of ours."""
