"""Single questions of arithmetic, asked in words without a spec: `wale reckon`.

A question reads its words (`words`), calls the same functions as the compiler (`wale.shaping`, `wale.yarn`, ...), and
gives an `Answer` with formula and source. Nothing is reckoned here that is not reckoned there.
"""
