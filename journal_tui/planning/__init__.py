"""The plan: from open items, or from plain activities, to dates.

Nothing here reads a file (but the package's own data), a database or a screen.

* ``schedule.schedule``: activities, precedences with lags, resources and a calendar to a schedule;
* ``network``, ``solver``, ``psplib``: the critical path, resource-limited projects, public problem files;
* ``calendar``, ``axis``, ``timeline``: when work runs, and waits that run on the clock;
* ``tasks``, ``items``, ``precedence``, ``readiness``: what an item takes, what it waits for, what is ready;
* ``jobplan``, ``explain``, ``compare``, ``visit``: a job's plan, its reasons, what moved, the next visit;
* ``chart``, ``ics``, ``rows``, ``dates``: how a plan is drawn and written, and dates ahead as typed.
"""
