# SPDX-License-Identifier: Apache-2.0
"""Alone may print, write a drawing or answer a request."""
