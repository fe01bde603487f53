"""Causes and follow-ups: what may have done it, and where else that sends people to look.

`graph` holds the knowledge as one dependency graph, and `export` writes it. For a survey, `evidence` sorts its
findings by the marks that causes leave, `noisy_or` works out exactly how likely each cause is, `rank` puts them in
order, `descriptions` and `stories` say it in words, and `plan` lists the checks that follow; `diagnose` does all of it.
"""
