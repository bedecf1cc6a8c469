# SPDX-License-Identifier: Apache-2.0
"""The shop's database: cars and every saved revision of their documents."""
