"""HTTP. Thin: a route reads a request, asks one storey below, and answers.

May import everything but cli. app.py is the composition root and shows the whole route table on one screen;
replies.py is the only place where an error becomes a status code.
"""
