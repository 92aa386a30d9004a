"""From tape-measure numbers to checks, layouts and quantities. Pure: no files but the package's own data.

Lengths are exact fractions of an inch (`fractions.Fraction`); what is worked out from them with roots
or measured constants is a float and says its unit. Every check returns a `checks.Check`.
"""
